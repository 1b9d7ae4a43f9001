// Package content reads the bars of a sheet as rows of what stands in them, whatever the
// place of the bar: heads and their shapes, the sides of stems, accidentals and dots that
// keep clear of one another, grace notes, and how far each column reaches on each staff.
// Equal bars are made once; ten megabytes of them are remembered at most.
package content
