package main

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sent answers what a page sends, with one header or more changed.
func sent(t *tapper, target, body string, headers map[string]string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, "/", strings.NewReader(body))
	r.Host, r.RequestURI = "127.0.0.1:7000", target
	for name, value := range map[string]string{"Origin": "http://127.0.0.1:7000", "Content-Type": "application/json", "X-Tieover-Token": t.token} {
		r.Header.Set(name, value)
	}
	for name, value := range headers {
		r.Header.Set(name, value)
	}
	w := httptest.NewRecorder()
	t.ServeHTTP(w, r)
	return w
}

// Only the page itself may send, from its own origin, with its token, in bounds.
func TestTapperRefuses(t *testing.T) {
	p, err := newTapper(7000, t.TempDir())
	require.NoError(t, err)
	assert.Contains(t, string(p.page), `data-token="`+p.token+`"`)
	good := `{"parts": [{"name": "Bell", "taps": [0, 1, 2]}]}`
	assert.Equal(t, http.StatusOK, sent(p, "/find", good, nil).Code)
	for name, values := range map[string][]string{
		"Origin":          {"", "null", "http://127.0.0.1", "http://127.0.0.1:7001", "https://127.0.0.1:7000", "http://lock.example", "http://127.0.0.1:7000.example"},
		"X-Tieover-Token": {"", "x", p.token + "x", strings.ToLower(p.token)},
		"Content-Type":    {"", "text/plain", "application/x-www-form-urlencoded", "multipart/form-data"},
	} {
		for _, value := range values {
			assert.Equal(t, http.StatusForbidden, sent(p, "/save", good, map[string]string{name: value}).Code, "%s: %s", name, value)
		}
	}
	many := strings.Repeat(`{"name": "A", "taps": []},`, mostParts)
	for _, body := range []string{"", "[]", `{"parts": []}`, `{"parts": [{"name": "A", "taps": [2, 1]}]}`, `{"dir": "/"}`, `{"parts": [` + many + `{"name": "A", "taps": [1]}]}`,
		`{"parts": [{"name": "` + strings.Repeat("A", mostSent) + `", "taps": [1]}]}`} {
		assert.Equal(t, http.StatusBadRequest, sent(p, "/save", body, nil).Code, "%.40s", body)
	}
	assert.Equal(t, http.StatusNotFound, sent(p, "/spec", good, nil).Code)
	assert.Equal(t, http.StatusMethodNotAllowed, sent(p, "/", good, nil).Code)
	left, err := os.ReadDir(p.dir)
	require.NoError(t, err)
	assert.Empty(t, left)
}

// Two parts on one clock, 3+2 and 4+3 eighths at quarter = 120: a pulse is a
// quarter of a second, both begin at 1 s. What is saved builds, and the spec says
// when it sounds in the recording. Nothing that was there is written over.
func TestTapperSaves(t *testing.T) {
	p, err := newTapper(7000, filepath.Join(t.TempDir(), "take"))
	require.NoError(t, err)
	var parts []string
	for name, groups := range map[string][]float64{"Gate": {3, 2}, "Weir/ side": {4, 3}} {
		var taps []string
		at := 1.0
		for i := 0; at < 1+35*0.25; i++ {
			text, err := json.Marshal(at)
			require.NoError(t, err)
			taps = append(taps, string(text))
			at += groups[i%2] * 0.25
		}
		parts = append(parts, `{"name": "`+name+`", "taps": [`+strings.Join(taps, ",")+`]}`)
	}
	body := `{"parts": [` + strings.Join(parts, ",") + `], "tempo": 120, "file": "take \"1\".wav"}`
	var a answer
	require.NoError(t, json.Unmarshal(sent(p, "/save", body, nil).Body.Bytes(), &a))
	assert.True(t, a.Saved, a.Told)
	assert.Contains(t, a.Spec, "name: Gate\n    groups: 3+2\n")
	assert.Contains(t, a.Spec, "groups: 4+3\n")
	assert.Contains(t, a.Spec, `recording: {file: "take \"1\".wav", starts: 1.000 s}`)
	assert.Contains(t, a.Chart, "Gate")
	for _, name := range []string{"gate.txt", "weir-side.txt", "section.yaml", "score.musicxml", "chart.txt", "section.mid"} {
		assert.FileExists(t, filepath.Join(p.dir, name))
	}
	text, err := os.ReadFile(filepath.Join(p.dir, "gate.txt"))
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(text), "# Gate\n1.000\n1.750\n2.250\n"), "%s", text)

	require.NoError(t, os.WriteFile(filepath.Join(p.dir, "gate.txt"), []byte("mine"), 0o644))
	a = answer{}
	require.NoError(t, json.Unmarshal(sent(p, "/save", body, nil).Body.Bytes(), &a))
	assert.False(t, a.Saved)
	assert.Contains(t, a.Told, "gate.txt")
	text, err = os.ReadFile(filepath.Join(p.dir, "gate.txt"))
	require.NoError(t, err)
	assert.Equal(t, "mine", string(text))
}
