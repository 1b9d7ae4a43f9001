// Package spacing sets rows on lines, from left to right: which bars are on which line,
// the signs at the start and end of bars, and the x of each column.
//
// Ideal gaps are shares of the widest sign that sounds; least distances come from one
// frontier a staff; a line is stretched by a binary search. How much fits a line is
// layout/sheet/room.go's, for layout and drawing alike.
package spacing
