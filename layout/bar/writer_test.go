package bar

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A dry voice keeps the first sign of each sound and has rests for what would be
// tied on: the same bars as they sound and dry, by hand.
func TestDryVoices(t *testing.T) {
	for _, c := range []struct{ meter, step, steps, sounds, dry string }{
		{"4/4", "1/8", "x===x===", "h h", "h h"},
		{"4/4", "1/8", "x====x==", "h~e q.", "h re q."},
		{"4/4", "1/8", "x======x", "h~q. e", "h rq re e"},
		{"4/4", "1/8", "xx=====x", "e q.~q. e", "e q. rq re e"},
		{"4/4", "1/8", ".x=====.", "re q.~q. re", "re q. rh"},
		{"4/4", "1/16", "x========x=====x", "h~s e.~e. s", "h rs e. re rs s"},
		{"2/4", "1/8 3:2", "x====x", "q~[3:2 q e]", "q [3:2 rq e]"},
		{"2/4", "1/8 3:2", "x.x==x", "[3:2 e re e]~[3:2 q e]", "[3:2 e re e] [3:2 rq e]"},
		{"3/4", "1/8", "x...xx", "e re rq e e", "e re rq e e"},
	} {
		d := drawing{meter: c.meter, step: c.step, steps: c.steps}
		assert.Equal(t, c.sounds, unbeamed(d.rhythm(t)), "%s %s", c.meter, c.steps)
		d.dry = true
		assert.Equal(t, c.dry, unbeamed(d.rhythm(t)), "%s %s, dry", c.meter, c.steps)
	}
}
