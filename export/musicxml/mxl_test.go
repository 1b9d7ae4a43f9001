package musicxml

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func compressed(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, WriteCompressed(&b, everything(), Options{}))
	return b.Bytes()
}

// The first bytes, as the MusicXML 4.0 reference asks of a compressed file:
// a local header (ZIP specification, 4.3.7) of an entry named mimetype
// that is stored, has no flags and no extra field, with the media type at byte
// 38.
func TestContainerBeginsWithItsMediaType(t *testing.T) {
	b := compressed(t)
	assert.Equal(t, "PK\x03\x04", string(b[:4]))
	assert.Equal(t, []byte{0, 0, 0, 0}, b[6:10], "flags and method")
	assert.Equal(t, []byte{34, 0, 0, 0, 34, 0, 0, 0}, b[18:26], "both sizes")
	assert.Equal(t, []byte{8, 0, 0, 0}, b[26:30], "length of the name, no extra field")
	assert.Equal(t, "mimetypeapplication/vnd.recordare.musicxml", string(b[30:72]))
	assert.Equal(t, "PK\x03\x04", string(b[72:76]))
	assert.Equal(t, b, compressed(t), "twice the same bytes")
}

func TestContainerHoldsTheDocument(t *testing.T) {
	b := compressed(t)
	archive, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	require.NoError(t, err)
	var names []string
	content := map[string][]byte{}
	for _, f := range archive.File {
		names = append(names, f.Name)
		r, err := f.Open()
		require.NoError(t, err)
		content[f.Name], err = io.ReadAll(r)
		require.NoError(t, err)
		assert.True(t, f.Modified.IsZero() || f.Modified.Year() < 1981, "no date")
	}
	assert.Equal(t, []string{"mimetype", "META-INF/container.xml", "score.musicxml"}, names)
	root := parse(t, content["META-INF/container.xml"]).all("rootfile")
	require.Len(t, root, 1)
	assert.Equal(t, "score.musicxml", root[0].attr("full-path"))
	assert.Equal(t, "application/vnd.recordare.musicxml+xml", root[0].attr("media-type"))
	assert.Equal(t, string(writtenDoc(t, everything(), Options{})), string(content["score.musicxml"]))
}

func TestContainerOpensWithUnzip(t *testing.T) {
	tool, err := exec.LookPath("unzip")
	if err != nil {
		missing(t, "unzip is not installed")
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "score.mxl")
	require.NoError(t, os.WriteFile(path, compressed(t), 0o600))
	output, err := exec.Command(tool, "-qq", path, "-d", filepath.Join(dir, "out")).CombinedOutput()
	require.NoError(t, err, string(output))
	got, err := os.ReadFile(filepath.Join(dir, "out", "score.musicxml"))
	require.NoError(t, err)
	assert.Equal(t, writtenDoc(t, everything(), Options{}), got)
}
