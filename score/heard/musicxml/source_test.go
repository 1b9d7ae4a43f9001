package musicxml

import (
	"bytes"
	"context"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/heard"
)

// byTokens reads a file token by token, without looking at children as text.
func byTokens(data []byte) (*heard.Score, error) {
	text, err := textOf(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	in := newReading(context.Background(), text)
	in.own = false
	if err := in.score(); err != nil {
		return nil, err
	}
	return in.perform()
}

// Children of bars that are taken whole, and once if they are alike, say what
// they say token by token: the same music, the same lines, the same errors, also
// of files that are damaged anywhere.
func TestWholeChildrenAreReadAsTokens(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/sections/*/want/score.musicxml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	hostile, err := filepath.Glob(hostileDir + "/*.musicxml")
	require.NoError(t, err)
	random := rand.New(rand.NewPCG(20, 16))
	pieces := []string{"<note>", "</note>", "<", ">", "/>", "\"", "<!-- x -->", "<![CDATA[1]]>", "<?a?>", "<direction/>", "\n", "&amp;", "&lock;", "<note a='>'/>", "\x00", "é", "</measure>"}
	for _, name := range append(files, hostile...) {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		if len(data) > 300_000 {
			data = data[:300_000] // cut off in the middle
		}
		damaged := [][]byte{data}
		if len(data) < 100_000 {
			for range 12 {
				at := random.IntN(len(data) + 1)
				to := min(len(data), at+random.IntN(3))
				damaged = append(damaged, append(append(bytes.Clone(data[:at]), pieces[random.IntN(len(pieces))]...), data[to:]...))
			}
		}
		for _, text := range damaged {
			want, wantErr := byTokens(text)
			got, err := Read(context.Background(), bytes.NewReader(text))
			if wantErr != nil {
				require.EqualError(t, err, wantErr.Error(), name)
				continue
			}
			require.NoError(t, err, name)
			require.Equal(t, want, got, name)
		}
	}
}

func TestPlainElement(t *testing.T) {
	for text, want := range map[string]string{
		`<note><rest/></note><note>`:               `<note><rest/></note>`,
		`<backup/> `:                               `<backup/>`,
		`<sound tempo="9>"/>x`:                     `<sound tempo="9>"/>`,
		`<direction><direction-type/></direction>`: `<direction><direction-type/></direction>`,
		`<note><note/></note>`:                     "",
		`<note><!-- </note> --></note>`:            "",
		`<note>`:                                   "",
		`</measure>`:                               "",
		`text`:                                     "",
		`<!-- x --><note/>`:                        "",
		`<Note/>`:                                  "",
		`<` + strings.Repeat("a", 40) + `/>`:       "",
	} {
		_, element, _ := plainElement([]byte(text))
		assert.Equal(t, want, string(element), text)
	}
}
