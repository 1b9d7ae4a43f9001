package main

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"unicode/utf8"
)

// visible writes characters that would steer a terminal as <1B>, as charts in
// ASCII write what they have no letter for: names of files, parts and keys may
// hold anything. Line ends and tabs stay. It is safe for use by several
// goroutines.
type visible struct {
	to   io.Writer
	mu   sync.Mutex
	part []byte // of a character that the next Write goes on with
}

func (v *visible) inner() io.Writer { return v.to }

func (v *visible) Write(p []byte) (int, error) {
	v.mu.Lock()
	defer v.mu.Unlock()
	text := append(v.part, p...)
	v.part = nil
	if begun := lastRune(text); !utf8.FullRune(text[begun:]) {
		text, v.part = text[:begun], append([]byte(nil), text[begun:]...)
	}
	if len(text) > 0 {
		if _, err := io.WriteString(v.to, escapeControls(string(text))); err != nil {
			return 0, err
		}
	}
	return len(p), nil
}

// flush writes what is no whole character and never became one.
func (v *visible) flush() {
	v.mu.Lock()
	defer v.mu.Unlock()
	if len(v.part) > 0 {
		_, _ = io.WriteString(v.to, escapeControls(string(v.part)))
		v.part = nil
	}
}

// lastRune is where the last character of a text begins.
func lastRune(text []byte) int {
	for i := len(text) - 1; i >= 0 && i >= len(text)-utf8.UTFMax; i-- {
		if utf8.RuneStart(text[i]) {
			return i
		}
	}
	return len(text)
}

// escapeControls is the text with a sign for each control character and each byte that
// is no UTF-8.
func escapeControls(text string) string {
	steers := func(c rune) bool {
		return c < ' ' && c != '\n' && c != '\t' || c >= 0x7f && c < 0xa0 || c >= 0x202a && c <= 0x202e || c == utf8.RuneError
	}
	if !strings.ContainsFunc(text, steers) {
		return text
	}
	var b strings.Builder
	for i, c := range text {
		switch _, size := utf8.DecodeRuneInString(text[i:]); {
		case c == utf8.RuneError && size == 1:
			fmt.Fprintf(&b, "<%02X>", text[i])
		case c != utf8.RuneError && steers(c):
			fmt.Fprintf(&b, "<%02X>", c)
		default:
			b.WriteRune(c)
		}
	}
	return b.String()
}

// remembered keeps the first error of a stream, for those who print and do not
// look.
type remembered struct {
	to  io.Writer
	mu  sync.Mutex
	err error
}

func (r *remembered) inner() io.Writer { return r.to }

func (r *remembered) Write(p []byte) (int, error) {
	n, err := r.to.Write(p)
	if err != nil {
		r.mu.Lock()
		defer r.mu.Unlock()
		if r.err == nil {
			r.err = err
		}
	}
	return n, err
}

// failure is the first error, if there was one.
func (r *remembered) failure() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.err
}
