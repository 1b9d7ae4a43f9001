package report

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"strconv"
	"strings"
)

// stream writes JSON as it goes, so that nothing long is held. Every element
// of an object or list stands on its own line. The writer below keeps the
// first error; values that cannot be encoded are our own mistake.
type stream struct {
	out   *bufio.Writer
	fresh []bool // for each open object or list: nothing is in it yet
	text  []byte
	other bytes.Buffer
	json  *json.Encoder // into other
}

func newStream(w io.Writer) *stream {
	s := &stream{out: bufio.NewWriterSize(w, 1<<16)}
	s.json = json.NewEncoder(&s.other)
	s.json.SetEscapeHTML(false)
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
	s.text = s.encode(s.text[:0], v)
	s.out.Write(s.text)
}

// encode appends a value: quickly where it is one of ours.
func (s *stream) encode(b []byte, v any) []byte {
	switch v := v.(type) {
	case object:
		b = append(b, '{')
		for i, m := range v {
			if i > 0 {
				b = append(b, ',')
			}
			b = append(s.encode(b, m.key), ':')
			b = s.encode(b, m.value)
		}
		return append(b, '}')
	case []object:
		b = append(b, '[')
		for i, o := range v {
			if i > 0 {
				b = append(b, ',')
			}
			b = s.encode(b, o)
		}
		return append(b, ']')
	case string:
		if needsNoEscape(v) {
			return append(append(append(b, '"'), v...), '"')
		}
	case int:
		return strconv.AppendInt(b, int64(v), 10)
	case bool:
		return strconv.AppendBool(b, v)
	}
	s.other.Reset()
	if err := s.json.Encode(v); err != nil {
		panic(err)
	}
	return append(b, bytes.TrimSuffix(s.other.Bytes(), []byte("\n"))...)
}

// needsNoEscape reports whether a string needs no escape.
func needsNoEscape(s string) bool {
	return !strings.ContainsFunc(s, func(c rune) bool { return c < ' ' || c > '~' || c == '"' || c == '\\' })
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
