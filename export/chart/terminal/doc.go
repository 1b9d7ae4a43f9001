// Package terminal spells, measures and breaks texts for lines of equal columns: accents
// take none, most East Asian characters two, and what is written from the right is
// isolated so that it moves nothing beside it.
package terminal
