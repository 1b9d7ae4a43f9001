package beat

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNumbers(t *testing.T) {
	for _, c := range [][3]int64{{12, 18, 6}, {18, 12, 6}, {-12, 18, 6}, {12, -18, 6}, {7, 5, 1}, {0, 9, 9}, {9, 0, 9}, {0, 0, 1}, {5, 5, 5}, {1, 8, 1}} {
		assert.Equal(t, c[2], GCD(c[0], c[1]), "%d and %d", c[0], c[1])
	}
	for _, c := range [][3]int64{{4, 6, 12}, {6, 4, 12}, {1, 7, 7}, {5, 5, 5}, {9, 10, 90}} {
		n, ok := LCM(c[0], c[1])
		assert.True(t, ok)
		assert.Equal(t, c[2], n)
	}
	n, ok := LCM[int64](1<<62, 2)
	assert.True(t, ok, "2 divides it")
	assert.Equal(t, int64(1)<<62, n)
	n, ok = LCM[int64](1<<63-1, 1)
	assert.True(t, ok, "the largest there is")
	assert.Equal(t, int64(1<<63-1), n)
	for _, pair := range [][2]int64{{1 << 62, 3}, {1<<62 - 1, 1 << 62}, {119_537_721, 77_158_673_929}} { // the last are 2^63+1
		_, ok = LCM(pair[0], pair[1])
		assert.False(t, ok)
	}
	for _, c := range [][4]int{{7, 3, 2, 1}, {-7, 3, -3, 2}, {6, 3, 2, 0}, {-6, 3, -2, 0}, {-1, 3, -1, 2}, {0, 3, 0, 0}, {2, 3, 0, 2}} {
		assert.Equal(t, []int{c[2], c[3]}, []int{FloorDiv(c[0], c[1]), Mod(c[0], c[1])}, "%d by %d", c[0], c[1])
	}
}

func TestSum(t *testing.T) {
	assert.Equal(t, "3+2+2", Sum([]int{3, 2, 2}))
	assert.Equal(t, "9", Sum([]int{9}))
	assert.Empty(t, Sum(nil))
	assert.Equal(t, "3+rest 2+10", SumOf([]int{3, -2, 10}, func(n int) (int, bool) { return max(n, -n), n < 0 }))
}
