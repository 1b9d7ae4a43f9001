package page

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestUnit(t *testing.T) {
	for u, want := range map[unit]string{0: "0", 100: "1", 1250: "12.5", 1205: "12.05", -7: "-0.07", 33: "0.33"} {
		assert.Equal(t, want, u.String())
	}
}

func TestEscape(t *testing.T) {
	assert.Equal(t, "&lt;b&gt; &amp; &#34;x&#34; &#39;y&#39;", esc(`<b> & "x" 'y'`))
	assert.Equal(t, "\uFFFD", esc("\x00")) // XML cannot hold it at all
}

// A letter of 12 units is estimated at 0.58 of that; wide ones at twice as much.
func TestFit(t *testing.T) {
	assert.Equal(t, unit(4*1200*58/100), widthOf("lock", 12*one))
	assert.Equal(t, unit(4*1200*58/100), widthOf("水門", 12*one))
	assert.Equal(t, "lock", shorten("lock", 12*one, 28*one))
	assert.Equal(t, "loc…", shorten("lock keeper", 12*one, 28*one))
	assert.Equal(t, "👩‍🚒…", shorten("👩‍🚒👩‍🚒👩‍🚒", 12*one, 22*one), "a joined emoji stays whole")
}
