/** The runnable program around the engine. Thin: no chemistry and no rules live here. */
@NullMarked
package gelwright.api;

import org.jspecify.annotations.NullMarked;
