package peek

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestPeeker(t *testing.T) {
	stopped := false
	p := Of(func(yield func(int) bool) {
		defer func() { stopped = true }()
		for n := range 6 {
			if !yield(10 * n) {
				return
			}
		}
	})
	next := func(want int, more bool) {
		t.Helper()
		v, ok := p.Peek()
		assert.Equal(t, []any{want, more}, []any{v, ok}, "looking")
		v, ok = p.Next()
		assert.Equal(t, []any{want, more}, []any{v, ok}, "taking")
	}
	next(0, true)
	assert.Equal(t, 10, *p.Ahead())
	assert.Equal(t, []int{10, 20}, slices.Collect(p.While(func(n int) bool { return n < 25 })))
	for n := range p.While(func(int) bool { return true }) {
		assert.Equal(t, 30, n)
		break // what was not yielded is still there
	}
	p.Drop()
	next(50, true)
	assert.Nil(t, p.Ahead())
	p.Drop() // there is nothing to forget
	next(0, false)
	assert.True(t, stopped, "the sequence has ended")
}

func TestStop(t *testing.T) {
	stopped := false
	p := Of(func(yield func(int) bool) {
		defer func() { stopped = true }()
		for yield(7) {
		}
	})
	assert.False(t, stopped)
	p.Stop()
	assert.True(t, stopped)
	v, ok := p.Next()
	assert.Equal(t, []any{0, false}, []any{v, ok})
	p.Stop()
}

func TestPeekerOfAFunction(t *testing.T) {
	n := 2
	p := From(func() (int, bool) { n--; return n, n >= 0 })
	assert.Equal(t, []int{1, 0}, slices.Collect(p.While(func(int) bool { return true })))
	_, ok := p.Next()
	assert.False(t, ok)
	p.Stop()
}
