// Package process says what a cycle of groups has become after so many passes:
// groups that grow or are added, cycles that begin elsewhere, move inside their
// own length or are turned round.
//
// Sizes and lengths stay changed; rotation and shift move the cycle's head and
// stay; retrograde turns only the cycle it falls on. Rules apply between two
// cycles, in the order in which they are listed.
//
// The head is where the figure begins: group 1, or backwards the group that goes
// before it, for what is played backwards begins with its end. So retrograde alone
// leaves the head at the cycle's start, and with a rotation it still falls on the start
// of a group.
//
// A growth takes from other groups until none has a pulse left: then the cycle
// stays as it is, and the growth is spent. A growth that only takes away ends
// with a cycle of no groups and no length: that cycle cannot be played, and
// whoever plays cycles stops there.
package process
