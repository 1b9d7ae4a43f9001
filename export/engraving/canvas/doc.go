// Package canvas holds what is drawn on the staves of a line and how far it reaches above
// and below each (the skyline), and hangs signs outside a staff in lanes that keep clear
// of it.
package canvas
