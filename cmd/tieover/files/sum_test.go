package files

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The CRC-32 of "123456789" is cbf43926 (the check value in catalogues of CRCs, as
// ITU-T V.42 and IEEE 802.3 define the polynomial; from memory).
func TestSum(t *testing.T) {
	var s Sum
	for _, part := range []string{"1234", "", "56789"} {
		n, err := s.Write([]byte(part))
		require.NoError(t, err)
		assert.Equal(t, len(part), n)
	}
	assert.Equal(t, "cbf43926-9", s.String())
	back, err := parseSum("cbf43926-9")
	require.NoError(t, err)
	assert.Equal(t, s, back)
	for _, bad := range []string{"", "cbf43926", "cbf43926-", "CBF43926-9", "cbf4392-9", "cbf43926-9x", "cbf43926- 9", "cbf43926-09", "cbf43926--9", "+bf43926-9"} {
		_, err := parseSum(bad)
		assert.Error(t, err, bad)
	}
}
