// Package page writes one self-contained HTML page that shows a piece, plays it
// and can be printed, and its figures alone. All drawings are made here, none
// by the page's script, which only shows, hides and moves what is there.
//
// The pipeline: gather (view) → systems (lines of equal scale) → frame (bands of one
// line; marks and texts in lanes, marks.go) → drawSystem, drawComposite, drawClock →
// template. faces numbers the clocks before newData writes the numbers out. What a line
// draws is found by search (inWindow, barsIn, countBefore, drawnIn), so a piece takes no
// longer than its length. Lengths on paper are integers (unit, hundredths of a CSS pixel);
// only the clock's circle uses floats, rounded. The player finds a place from data-from,
// data-to, data-left, data-width, data-time of a system.
//
// Laws:
//
//   - Nothing is requested: the page's own content policy is default-src 'none'; only a
//     served page has connect-src 'self'.
//   - Texts go through esc in SVG and through html/template elsewhere; names in running
//     text are wrapped in direction isolates.
//   - The script's files are joined into one scope, in the order of script.
//   - Sound goes layers → limiter → volume, so nothing is louder than the volume.
//   - alone.go rewrites a drawing for programs that know neither style variables nor
//     paint-order (they drew no line at all), so a rule of figure.css is one line.
//
// To add a figure: draw it with a canvas from a frame, give it a class in
// assets/figure.css (shared by page and lone SVGs), a row in show and in figures.
//
// Checks. Contrast, of WCAG 2.2 1.4.3 and 1.4.11, sRGB IEC 61966-2-1, CIE 1976 L*, is
// computed in look_test.go from the style sheets themselves. .ci/page/run.sh TIEOVER
// [PICTURES] looks at pages in headless Chromium: no console error, no request, plays
// (level heard at the loudspeaker), moves, mutes, loops, steps in silence, keyboard, names
// for screen readers, no overflow, no control too small to touch and no letter too small
// to read from 360 to 1440 px, forced colors, one printed sheet a section. player.mjs puts
// a sound card with a clock turned by hand (clock.js) under the player and compares what
// is struck, and when, with report.json: played through, in loops, after pauses, while the
// tempo is dragged, in the background. served.mjs checks who serve answers and that pages
// follow the spec. Pass a folder to get the pictures, and look at them.
package page
