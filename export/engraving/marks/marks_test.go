package marks

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
)

// Every kind of mark has a row of its own.
func TestEveryMarkHasARow(t *testing.T) {
	n := 0
	for k := sheet.MarkKind(0); (sheet.Mark{Kind: k}).String() != ""; k++ {
		assert.Contains(t, markRows, k, "%v", sheet.Mark{Kind: k})
		n++
	}
	assert.Len(t, markRows, n)
}
