/**
 * Benchmarks, built only with the profile {@code bench}. They measure; whether results are right is
 * for the tests, except where a comparison would mean nothing without it: such a benchmark checks in
 * its set-up that all sides come to the same outcome.
 */
package gelwright.bench;
