// Package systems decides where the systems and pages of a sheet begin, by the widths of
// layout/sheet. The systems of a score are chosen by Breaker, from the periods between
// realignments; those of a part printed alone by Of, from its bars.
package systems
