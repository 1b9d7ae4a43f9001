package main

import (
	"bufio"
	"context"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/processor"
)

func asked(v *viewer, method, host, target string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, "/", nil)
	r.Host, r.RequestURI = host, target
	w := httptest.NewRecorder()
	v.ServeHTTP(w, r)
	return w
}

// Only the page, only by reading, only under this machine's own names.
func TestViewerAnswers(t *testing.T) {
	v := newViewer(7000)
	v.show([]byte("<p>lock</p>"), "1")
	for _, host := range []string{"127.0.0.1:7000", "localhost:7000"} {
		w := asked(v, "GET", host, "/")
		assert.Equal(t, http.StatusOK, w.Code)
		assert.Equal(t, "<p>lock</p>", w.Body.String())
		assert.Equal(t, "text/html; charset=utf-8", w.Header().Get("Content-Type"))
		assert.Equal(t, "no-store", w.Header().Get("Cache-Control"))
	}
	for _, host := range []string{"", "127.0.0.1", "localhost", "127.0.0.1:7001", "lock.example:7000", "127.0.0.1:7000.example", "[::1]:7000", "0.0.0.0:7000"} {
		w := asked(v, "GET", host, "/")
		assert.Equal(t, http.StatusForbidden, w.Code, "host %q", host)
		assert.NotContains(t, w.Body.String(), "lock")
		assert.Equal(t, http.StatusForbidden, asked(v, "GET", host, "/changes").Code, "host %q", host)
	}
	for _, target := range []string{"/x", "//", "/?x", "/../", "/%2e%2e/spec.yaml", "http://127.0.0.1:7000/", "*", "", "/changes?x", "/favicon.ico"} {
		assert.Equal(t, http.StatusNotFound, asked(v, "GET", "127.0.0.1:7000", target).Code, "target %q", target)
	}
	for _, method := range []string{"POST", "PUT", "DELETE", "OPTIONS", "CONNECT"} {
		assert.Equal(t, http.StatusMethodNotAllowed, asked(v, method, "127.0.0.1:7000", "/").Code, method)
	}
}

// A browser hears which page is the newest, and of each one after it.
func TestViewerTells(t *testing.T) {
	v := newViewer(0)
	server := httptest.NewServer(v)
	defer server.Close()
	v.hosts = []string{strings.TrimPrefix(server.URL, "http://")}
	v.show(nil, "first")

	ctx, stop := context.WithTimeout(t.Context(), time.Minute)
	defer stop()
	r, err := http.NewRequestWithContext(ctx, "GET", server.URL+"/changes", nil)
	require.NoError(t, err)
	answer, err := server.Client().Do(r)
	require.NoError(t, err)
	defer answer.Body.Close()
	lines := bufio.NewScanner(answer.Body)
	next := func() string {
		for lines.Scan() {
			if lines.Text() != "" {
				return lines.Text()
			}
		}
		return ""
	}
	assert.Equal(t, "data: first", next())
	v.show(nil, "second")
	assert.Equal(t, "data: second", next())
}

func TestServeUsage(t *testing.T) {
	for _, args := range [][]string{{"serve"}, {"serve", "-"}, {"serve", "x.yaml", "--port", "65536"}, {"serve", "x.yaml", "--port", "-1"}} {
		var out, messages strings.Builder
		assert.Equal(t, wrongUse, run(args, streams{strings.NewReader(""), &out, &messages}), "%v", args)
		assert.Empty(t, out.String())
	}
}

// A port that somebody else listens on cannot be taken.
func TestServePortInUse(t *testing.T) {
	listener, err := net.Listen("tcp4", "127.0.0.1:0")
	require.NoError(t, err)
	defer listener.Close()
	port := listener.Addr().(*net.TCPAddr).Port
	code, messages := at("serve", round, "--port", strconv.Itoa(port))
	assert.Equal(t, wrongData, code)
	assert.Regexp(t, fmt.Sprintf(`^tieover: cannot listen on port %d: .*; choose another with --port\n$`, port), messages)
}

// A piece too long for a page is refused before anything of it is drawn.
func TestPageOfLongPiece(t *testing.T) {
	drawn, messages := strings.Builder{}, strings.Builder{}
	text := canal(8, 1_000_000)
	begun := processor.Time()
	page := string(pageOf(streams{strings.NewReader(text), &drawn, &messages}, []string{"-"}, pageOptions{version: "v1"}))
	assert.Less(t, processor.Time()-begun, 10*time.Second, "a fraction of a second; walking the piece once takes twenty")
	assert.Contains(t, page, "more than 20000 attacks")
}

// A spec that cannot be read gives a page that says so, and the same in words.
func TestPageOfBrokenSpec(t *testing.T) {
	var out, messages strings.Builder
	page := string(pageOf(streams{strings.NewReader(""), &out, &messages}, []string{t.TempDir() + "/none.yaml"}, pageOptions{version: "v1"}))
	assert.Contains(t, page, "none.yaml")
	assert.Contains(t, page, `"v1"`)
	assert.Contains(t, messages.String(), "none.yaml")
	assert.Empty(t, out.String())
}
