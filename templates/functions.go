package templates

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"text/template"
)

// maker makes text for one run and counts how much.
type maker struct{ made int }

// functions replaces those that can make text out of nothing.
func (m *maker) functions() template.FuncMap {
	made := func(f func(...any) string) func(...any) (string, error) {
		return func(args ...any) (string, error) { return m.small(args, f) }
	}
	return template.FuncMap{
		"print":    made(fmt.Sprint),
		"println":  made(fmt.Sprintln),
		"printf":   m.printf,
		"html":     made(template.HTMLEscaper),
		"js":       made(template.JSEscaper),
		"urlquery": made(template.URLQueryEscaper),
	}
}

// small calls f if all that goes in is text or a number, and neither that nor
// what comes out is too long.
func (m *maker) small(args []any, f func(...any) string) (string, error) {
	if len(args) > mostValues {
		return "", fmt.Errorf("more than %d values in one call", mostValues)
	}
	in := 0
	for _, a := range args {
		switch v := reflect.ValueOf(a); v.Kind() {
		case reflect.String:
			in += v.Len()
		case reflect.Slice:
			return "", errors.New("a list is no text; name one of its fields")
		case reflect.Struct, reflect.Pointer, reflect.Map:
			return "", errors.New("this is no text; name one of its fields")
		}
	}
	if in > largestText {
		return "", errTooLong
	}
	out := f(args...)
	if len(out) > largestText {
		return "", errTooLong
	}
	if m.made += len(out); m.made > largestWork {
		return "", fmt.Errorf("functions make more than %d bytes of text", largestWork)
	}
	return out, nil
}

var errTooLong = fmt.Errorf("more than %d bytes in one text", largestText)

// printf is fmt.Sprintf with plain widths only.
func (m *maker) printf(format string, args ...any) (string, error) {
	number := 0
	inVerb := false
	for _, r := range format {
		switch {
		case r == '%':
			inVerb, number = !inVerb, 0
		case inVerb && r == '*':
			return "", errors.New("printf: * is not allowed; write the width")
		case inVerb && r >= '0' && r <= '9':
			if number = number*10 + int(r-'0'); number > widestPrintf {
				return "", fmt.Errorf("printf: a width over %d", widestPrintf)
			}
		case inVerb && (r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'):
			inVerb = false
		default:
			number = 0
		}
	}
	if strings.Count(format, "%") > widestPrintf/10 {
		return "", errors.New("printf: too many verbs")
	}
	return m.small(append([]any{format}, args...), func(all ...any) string {
		return fmt.Sprintf(all[0].(string), all[1:]...)
	})
}
