/**
 * Reviews as documents for other programs: JSON of its own schema, SARIF 2.1.0, JUnit XML.
 *
 * <p>Each writer turns reviews into bytes and does nothing else: it asks for no time, reads no file
 * and decides nothing about a formula. The same reviews give the same bytes. What could not be
 * checked is written in every format, with what is missing; it is never written as passed. A file
 * that could not be read is written beside the reviews as {@link gelwright.reports.Unreadable}.
 *
 * <p>{@link gelwright.reports.Gravity} holds the one table of what counts as failed; all writers
 * and the exit status follow it. Text and pages for people belong to the program, not in here.
 */
@NullMarked
package gelwright.reports;

import org.jspecify.annotations.NullMarked;
