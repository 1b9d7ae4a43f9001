package musicxml

import (
	"bytes"
	"io"
)

// source is the text of a file as it is read, a window of it at a time. The XML
// decoder takes it byte by byte; whole children of a bar may be taken at once in
// between, which the decoder does not notice.
type source struct {
	in    io.Reader
	buf   []byte // the window; buf[at:] is still to be taken
	at    int
	left  int64 // bytes that the file may still have
	lines int   // that were taken without the decoder
	prev  byte  // the last byte but one that the decoder took
	last  byte
	err   error
}

// The window holds so many bytes; a child of a bar that is longer is left to the
// decoder.
const windowSize = 64 << 10

func newSource(in io.Reader) *source {
	return &source{in: in, buf: make([]byte, 0, windowSize), left: MaxBytes}
}

// fill reads on, and keeps what is still to be taken. It reports whether more
// came.
func (s *source) fill() bool {
	if s.err != nil || len(s.buf)-s.at == cap(s.buf) {
		return false
	}
	n := copy(s.buf[:cap(s.buf)], s.buf[s.at:])
	s.buf, s.at = s.buf[:n], 0
	m, err := io.ReadAtLeast(s.in, s.buf[n:cap(s.buf)], 1)
	s.buf = s.buf[:n+m]
	s.left -= int64(m)
	switch {
	case s.left < 0:
		s.buf, s.err = s.buf[:n], failed(0, "the file is larger than %d MiB", MaxBytes>>20)
		return false
	case err != nil:
		s.err = err
	}
	return m > 0
}

// ReadByte takes a byte for the decoder.
func (s *source) ReadByte() (byte, error) {
	if s.at == len(s.buf) && !s.fill() {
		return 0, s.err
	}
	s.prev, s.last = s.last, s.buf[s.at]
	s.at++
	return s.last, nil
}

// Read is for decoders that convert an encoding.
func (s *source) Read(p []byte) (int, error) {
	if s.at == len(s.buf) && !s.fill() {
		return 0, s.err
	}
	n := copy(p, s.buf[s.at:])
	s.at += n
	return n, nil
}

// closed reports whether the tag that the decoder took last closes itself.
func (s *source) closed() bool { return s.last == '>' && s.prev == '/' }

// child returns the next child element as text, without taking it, and its name.
// ok is false when what comes next is anything else: an end tag, a comment, other
// text, or an element that is not plainly to be seen to its end.
func (s *source) child() (name, text []byte, ok bool) {
	for {
		for s.at < len(s.buf) && isBlank(s.buf[s.at]) {
			if s.buf[s.at] == '\n' {
				s.lines++
			}
			s.at++
		}
		name, text, ok = plainElement(s.buf[s.at:])
		if ok || !s.fill() {
			return name, text, ok
		}
	}
}

// take passes over a child that was returned.
func (s *source) take(text []byte) {
	s.at += len(text)
	s.lines += bytes.Count(text, []byte{'\n'})
	s.prev, s.last = 0, '>'
}

func isBlank(b byte) bool { return b == ' ' || b == '\n' || b == '\t' || b == '\r' }

// plainElement returns the element at the start of a text, with its name, if it
// has no comments or sections in it and none of its own name inside it.
func plainElement(text []byte) (name, element []byte, ok bool) {
	if len(text) < 2 || text[0] != '<' {
		return nil, nil, false
	}
	n := 1
	for n < len(text) && 'a' <= text[n] && text[n] <= 'z' {
		n++
	}
	name = text[1:n]
	if len(name) == 0 || len(name) > maxName || n == len(text) || text[n] != '>' && text[n] != '/' && !isBlank(text[n]) {
		return nil, nil, false
	}
	tag := tagEnd(text)
	if tag < 0 {
		return nil, nil, false
	}
	if text[tag-1] == '/' {
		return name, text[:tag+1], true
	}
	var close [maxName + 3]byte
	end := append(append(append(close[:0], "</"...), name...), '>')
	at := bytes.Index(text[tag+1:], end)
	if at < 0 {
		return nil, nil, false
	}
	element = text[:tag+1+at+len(end)]
	inside := element[1:]
	if bytes.Contains(inside, []byte("<!")) || bytes.Contains(inside, []byte("<?")) || nests(inside, end[1:n+1]) {
		return nil, nil, false
	}
	return name, element, true
}

// maxName is longer than the name of any child of a bar.
const maxName = 32

// tagEnd returns where the tag at the start of a text ends, -1 if it does not; a
// > in quotes does not end it.
func tagEnd(text []byte) int {
	quote := byte(0)
	for i, b := range text {
		switch {
		case quote != 0:
			if b == quote {
				quote = 0
			}
		case b == '"' || b == '\'':
			quote = b
		case b == '>':
			return i
		}
	}
	return -1
}

// nests reports whether an element of the name that slashed holds behind a
// slash opens inside the text.
func nests(inside, slashed []byte) bool {
	for {
		at := bytes.Index(inside, slashed[1:])
		if at < 0 {
			return false
		}
		after := at + len(slashed) - 1
		if at > 0 && inside[at-1] == '<' && after < len(inside) && (inside[after] == '>' || inside[after] == '/' || isBlank(inside[after])) {
			return true
		}
		inside = inside[after:]
	}
}
