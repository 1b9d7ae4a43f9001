// Package composite makes one player's music of the attacks of several layers of a
// section, and says where that asks too much of the player.
package composite
