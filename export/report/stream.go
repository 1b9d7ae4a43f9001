package report

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"strings"
)

// stream writes JSON as it goes, so that nothing long is held. Every element
// of an object or list stands on its own line. The writer below keeps the
// first error; values that cannot be encoded are our own mistake.
type stream struct {
	out    *bufio.Writer
	fresh  []bool // for each open object or list: nothing is in it yet
	text   bytes.Buffer
	encode *json.Encoder // into text
}

func newStream(w io.Writer) *stream {
	s := &stream{out: bufio.NewWriterSize(w, 1<<16)}
	s.encode = json.NewEncoder(&s.text)
	s.encode.SetEscapeHTML(false)
	return s
}

// place goes to where the next element stands.
func (s *stream) place(key string) {
	if n := len(s.fresh); n > 0 {
		if !s.fresh[n-1] {
			s.out.WriteByte(',')
		}
		s.fresh[n-1] = false
		s.out.WriteByte('\n')
		s.out.WriteString(strings.Repeat(" ", 2*n))
	}
	if key != "" {
		s.out.WriteString(`"` + key + `": `)
	}
}

// value writes one element; key is empty inside a list.
func (s *stream) value(key string, v any) {
	s.place(key)
	s.text.Reset()
	if err := s.encode.Encode(v); err != nil {
		panic(err)
	}
	s.out.Write(bytes.TrimSuffix(s.text.Bytes(), []byte("\n")))
}

// object writes an object whose elements write adds.
func (s *stream) object(key string, write func()) { s.group(key, '{', '}', write) }

// list writes a list whose elements write adds.
func (s *stream) list(key string, write func()) { s.group(key, '[', ']', write) }

func (s *stream) group(key string, open, end byte, write func()) {
	s.place(key)
	s.out.WriteByte(open)
	s.fresh = append(s.fresh, true)
	write()
	n := len(s.fresh) - 1
	empty := s.fresh[n]
	s.fresh = s.fresh[:n]
	if !empty {
		s.out.WriteByte('\n')
		s.out.WriteString(strings.Repeat(" ", 2*n))
	}
	s.out.WriteByte(end)
}
