/**
 * Pages for people: templates filled with typed models, each page one HTML file that stands alone.
 *
 * <p>A page is a {@link gelwright.api.html.Page} (what stands around its content) and either a
 * {@link gelwright.api.html.Paper}, made of sections and blocks, or the model of a template of its
 * own in {@code src/main/jte} that is put into {@code layout.jte}. Templates are compiled in the
 * build; every value is escaped for the place where it stands. A page has one style sheet, written
 * into it, no script, and asks for nothing from anywhere; it says so to the browser with a policy
 * of its own.
 *
 * <p>The report of reviews is a {@link gelwright.api.html.Report}. What is said of a review is said
 * in {@link gelwright.api.html.Words}, for pages and for the command line alike; which findings are
 * told together is decided in {@link gelwright.api.html.Gathered}. Templates only lay out, and
 * nothing of a formula is computed in here.
 */
@NullMarked
package gelwright.api.html;

import org.jspecify.annotations.NullMarked;
