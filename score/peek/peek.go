// Package peek reads a sequence one value ahead.
package peek

import "iter"

// Peeker reads a sequence whose next value can be seen before it is taken.
type Peeker[T any] struct {
	next  func() (T, bool)
	stop  func()
	ahead T
	more  bool
}

// Of reads a sequence. It reads the first value at once. Call Stop in the end.
func Of[T any](seq iter.Seq[T]) *Peeker[T] {
	next, stop := iter.Pull(seq)
	p := &Peeker[T]{next: next, stop: stop}
	p.ahead, p.more = p.next()
	return p
}

// From reads what a function makes, one value a call, until it returns false.
func From[T any](next func() (T, bool)) *Peeker[T] {
	p := &Peeker[T]{next: next, stop: func() {}}
	p.ahead, p.more = p.next()
	return p
}

// Peek returns the next value without taking it; false when there is none.
func (p *Peeker[T]) Peek() (T, bool) { return p.ahead, p.more }

// Ahead returns a pointer to the next value, good until it is taken; nil when there
// is none.
func (p *Peeker[T]) Ahead() *T {
	if !p.more {
		return nil
	}
	return &p.ahead
}

// Drop takes the next value and forgets it.
func (p *Peeker[T]) Drop() {
	if p.more {
		p.ahead, p.more = p.next()
	}
}

// Next takes the next value; false when there is none.
func (p *Peeker[T]) Next() (T, bool) {
	value, ok := p.ahead, p.more
	if ok {
		p.ahead, p.more = p.next()
	}
	return value, ok
}

// While takes values as long as the next one meets a condition.
func (p *Peeker[T]) While(holds func(T) bool) iter.Seq[T] {
	return func(yield func(T) bool) {
		for p.more && holds(p.ahead) {
			value, _ := p.Next()
			if !yield(value) {
				return
			}
		}
	}
}

// Stop ends the reading. It may be called twice.
func (p *Peeker[T]) Stop() {
	var none T
	p.stop()
	p.ahead, p.more = none, false
}
