package facts

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math/big"
	"strconv"
	"strings"

	"tieover/score/beat"
)

// stream writes JSON as it goes, so that nothing long is held. Every element
// of an object or list stands on its own line. The writer below keeps the
// first error; values that cannot be encoded are our own mistake.
type stream struct {
	out   *bufio.Writer
	grid  beat.Grid // of the times
	fresh []bool    // for each open object or list: nothing is in it yet
	text  []byte
	other bytes.Buffer
	json  *json.Encoder // into other
}

// write writes a document.
func write(w io.Writer, grid beat.Grid, document block) error {
	s := &stream{out: bufio.NewWriterSize(w, 1<<16), grid: grid}
	s.json = json.NewEncoder(&s.other)
	s.json.SetEscapeHTML(false)
	s.member("", document)
	s.out.WriteByte('\n')
	return s.out.Flush()
}

// member writes an element of a block, or of a list with an empty key.
func (s *stream) member(key string, v any) {
	switch v := v.(type) {
	case absent:
	case block:
		s.group(key, '{', '}', func() {
			for _, f := range v {
				s.member(f.key, f.value)
			}
		})
	case list:
		s.group(key, '[', ']', func() {
			for e := range v {
				s.member("", e)
			}
		})
	default:
		s.place(key)
		s.text = s.encode(s.text[:0], v)
		s.out.Write(s.text)
	}
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

// encode appends a value. Times, in ticks, are fractions of a whole note.
func (s *stream) encode(b []byte, v any) []byte {
	switch v := v.(type) {
	case object:
		open := len(b)
		for _, f := range v {
			if f.value != (absent{}) {
				b = append(s.quote(append(b, ','), f.key), ':')
				b = s.encode(b, f.value)
			}
		}
		return enclosed(b, open, '{', '}')
	case []object:
		open := len(b)
		for _, o := range v {
			b = s.encode(append(b, ','), o)
		}
		return enclosed(b, open, '[', ']')
	case beat.Time:
		return s.quote(b, s.grid.Span(v).String())
	case *big.Rat:
		return s.quote(b, v.RatString())
	case fmt.Stringer:
		return s.quote(b, v.String())
	case string:
		return s.quote(b, v)
	case int:
		return strconv.AppendInt(b, int64(v), 10)
	case bool:
		return strconv.AppendBool(b, v)
	}
	return s.encodeOther(b, v)
}

// quote appends a string.
func (s *stream) quote(b []byte, v string) []byte {
	if needsNoEscape(v) {
		return append(append(append(b, '"'), v...), '"')
	}
	return s.encodeOther(b, v)
}

// encodeOther appends what is no value of ours, or not plain.
func (s *stream) encodeOther(b []byte, v any) []byte {
	s.other.Reset()
	if err := s.json.Encode(v); err != nil {
		panic(err)
	}
	return append(b, bytes.TrimSuffix(s.other.Bytes(), []byte("\n"))...)
}

// enclosed closes an object or list whose elements, each behind a comma, begin at open.
func enclosed(b []byte, open int, left, right byte) []byte {
	if len(b) == open {
		return append(b, left, right)
	}
	b[open] = left
	return append(b, right)
}

// needsNoEscape reports whether a string needs no escape.
func needsNoEscape(s string) bool {
	return !strings.ContainsFunc(s, func(c rune) bool { return c < ' ' || c > '~' || c == '"' || c == '\\' })
}

// group writes an object or a list whose elements are written in turn.
func (s *stream) group(key string, open, end byte, elements func()) {
	s.place(key)
	s.out.WriteByte(open)
	s.fresh = append(s.fresh, true)
	elements()
	n := len(s.fresh) - 1
	empty := s.fresh[n]
	s.fresh = s.fresh[:n]
	if !empty {
		s.out.WriteByte('\n')
		s.out.WriteString(strings.Repeat(" ", 2*n))
	}
	s.out.WriteByte(end)
}
