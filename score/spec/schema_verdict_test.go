package spec

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"
	"pgregory.net/rapid"

	"tieover/score/sample"
)

// rules is a JSON Schema; its verdict on a document is worked out as the
// standard says (draft 2020-12), for the keywords that ours uses.
type rules struct {
	t    require.TestingT
	root map[string]any
}

func readRules(t require.TestingT) rules {
	text, err := os.ReadFile("../../templates/schema.json")
	require.NoError(t, err)
	r := rules{t: t}
	require.NoError(t, json.Unmarshal(text, &r.root))
	return r
}

// accepts reports whether a value meets a schema.
func (r rules) accepts(schema, v any) bool {
	if yes, ok := schema.(bool); ok {
		return yes
	}
	s := schema.(map[string]any)
	for keyword, rule := range s {
		if !r.meets(s, keyword, rule, v) {
			return false
		}
	}
	return true
}

func (r rules) meets(s map[string]any, keyword string, rule, v any) bool {
	text, isText := v.(string)
	number, isNumber := asNumber(v)
	object, isObject := v.(map[string]any)
	array, isArray := v.([]any)
	one := func(schema any) bool { return r.accepts(schema, v) }
	switch keyword {
	case "$schema", "$defs", "title", "description":
		return true
	case "$ref":
		return one(r.root["$defs"].(map[string]any)[strings.TrimPrefix(rule.(string), "#/$defs/")])
	case "type":
		return slices.ContainsFunc(listOf(rule), func(name any) bool { return isType(v, name.(string)) })
	case "enum":
		return slices.ContainsFunc(rule.([]any), func(w any) bool { return reflect.DeepEqual(w, v) })
	case "const":
		return reflect.DeepEqual(rule, v) || isNumber && number == rule
	case "pattern":
		return !isText || regexp.MustCompile(rule.(string)).MatchString(text)
	case "maxLength":
		return !isText || utf8.RuneCountInString(text) <= int(rule.(float64))
	case "minimum":
		return !isNumber || number >= rule.(float64)
	case "maximum":
		return !isNumber || number <= rule.(float64)
	case "minItems":
		return !isArray || len(array) >= int(rule.(float64))
	case "maxItems":
		return !isArray || len(array) <= int(rule.(float64))
	case "items":
		return !slices.ContainsFunc(array, func(item any) bool { return !r.accepts(rule, item) })
	case "required":
		return !isObject || !slices.ContainsFunc(rule.([]any), func(key any) bool { return !has(object, key) })
	case "minProperties":
		return !isObject || len(object) >= int(rule.(float64))
	case "properties", "additionalProperties", "propertyNames", "dependentRequired", "dependentSchemas":
		return r.meetsKeys(s, keyword, rule, object)
	case "oneOf", "anyOf":
		n := 0
		for _, schema := range rule.([]any) {
			if one(schema) {
				n++
			}
		}
		return n == 1 || n > 1 && keyword == "anyOf"
	case "not":
		return !one(rule)
	}
	require.Fail(r.t, "the schema uses "+keyword+", which this test does not know")
	return false
}

// meetsKeys is for the keywords that speak of the keys of an object.
func (r rules) meetsKeys(s map[string]any, keyword string, rule any, object map[string]any) bool {
	known, _ := s["properties"].(map[string]any)
	for key, inner := range object {
		good := true
		switch keyword {
		case "propertyNames":
			good = r.accepts(rule, key)
		case "properties":
			good = known[key] == nil || r.accepts(known[key], inner)
		case "additionalProperties":
			good = known[key] != nil || r.accepts(rule, inner)
		case "dependentSchemas":
			needs := rule.(map[string]any)[key]
			good = needs == nil || r.accepts(needs, object)
		case "dependentRequired":
			needs, _ := rule.(map[string]any)[key].([]any)
			good = !slices.ContainsFunc(needs, func(k any) bool { return !has(object, k) })
		}
		if !good {
			return false
		}
	}
	return true
}

func has(object map[string]any, key any) bool { _, ok := object[key.(string)]; return ok }

func listOf(rule any) []any {
	if many, ok := rule.([]any); ok {
		return many
	}
	return []any{rule}
}

func asNumber(v any) (float64, bool) {
	switch n := v.(type) {
	case int:
		return float64(n), true
	case float64:
		return n, true
	}
	return 0, false
}

func isType(v any, name string) bool {
	switch v.(type) {
	case string:
		return name == "string"
	case bool:
		return name == "boolean"
	case int:
		return name == "integer" || name == "number"
	case float64:
		return name == "number"
	case []any:
		return name == "array"
	case map[string]any:
		return name == "object"
	}
	return false
}

// plainValue gives a YAML document as JSON knows it; ok is false where it is none.
func plainValue(text []byte) (v any, ok bool) {
	if yaml.Unmarshal(text, &v) != nil {
		return nil, false
	}
	return stringKeys(v), true
}

func stringKeys(v any) any {
	switch v := v.(type) {
	case map[any]any:
		out := map[string]any{}
		for key, inner := range v {
			out[fmt.Sprint(key)] = stringKeys(inner)
		}
		return out
	case map[string]any:
		for key, inner := range v {
			v[key] = stringKeys(inner)
		}
	case []any:
		for i, inner := range v {
			v[i] = stringKeys(inner)
		}
	}
	return v
}

// TestSchemaAcceptsWhatReads: an editor underlines nothing in a good spec.
func TestSchemaAcceptsWhatReads(t *testing.T) {
	accepted := func(t require.TestingT, text string) {
		r := readRules(t)
		v, ok := plainValue([]byte(text))
		require.True(t, ok)
		assert.True(t, r.accepts(r.root, v), text)
	}
	for _, pattern := range []string{"../../testdata/sections/*/*.yaml", "../../templates/*.yaml"} {
		files, err := filepath.Glob(pattern)
		require.NoError(t, err)
		require.NotEmpty(t, files)
		for _, file := range files {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			accepted(t, string(text))
		}
	}
	rapid.Check(t, func(t *rapid.T) { accepted(t, sample.YAML(t)) })
}

// beyondSchema are the broken specs in which no key and no value is wrong by
// itself: what is wrong hangs on another value, is arithmetic, or nothing that
// a schema sees (comments, tags). The schema refuses all others.
var beyondSchema = strings.Fields(`
	short-names-alike tab-mistakes
	pickup-held-into-a-repeat pickup-meter pickup-meter-of-bar-1 pickup-none pickup-of-thirds pickup-slur-into-a-repeat pickup-technique-into-a-repeat pickup-too-long pickup-too-long-entered pickup-without-that-beat
	attacks-without-end bar-without-that-beat box-first-hold box-too-long donor-runs-out drum-names dynamic-at-an-entry
	ends-inside-a-bar except-beyond-the-end except-changes-nothing figures-too-fine grid-too-fine groups-all-rest
	groups-and-box groups-and-boxes groups-deep groups-hexadecimal groups-huge groups-too-many groups-unclosed
	groups-underscore groups-unopened growing-cycle-never-meets-the-barline hairpin-backwards hairpin-level recording-backwards recording-twice instrument-far-off
	instrument-unknown instrument-without-pitches key-signature-too-many layer-name-composed-otherwise
	layer-names-alike leaves-before-it-sounds length-beyond-a-million-bars line-commas line-mistakes line-of-one-sound mark-twice plan-two-at-one-place
	slur-backwards slurs-overlap clef-inside-a-bar key-inside-a-bar written-inside-a-bar written-ends-early meter-change-inside-a-bar meter-changes-out-of-order meter-too-long never-realigns never-where-cut nothing-realigns
	cuts-count lyrics-left-over place-attack place-attack-of-a-line meter-by-a-late-layer
	pitches-chord-too-big pitches-list-never pitches-on-a-drum pitches-on-one-sound pitches-plus-first pitches-slash
	tempo-gradual-backwards tempo-inside-a-gradual tempo-gradual-too-long tempo-gradual-too-exact tempo-a-tempo-first
	fermata-behind-the-end fermata-too-slow
	pitches-too-many pitches-without-instrument pitches-without-instrument-marimba places-reversed
	plan-at-a-cycle-of-a-line plan-at-a-realignment-that-never-comes plan-at-realignment-0-with-an-offset
	plan-beyond-the-end plan-cycle-of-whom player-two-instruments player-instrument-and-none player-little-time written-by-one-of-two process-box-grows process-until-differs
	pulse-five-sixteenths pulse-name pulse-no-value pulse-odd-fraction pulse-ratio-no-tuplet pulse-ratio-reducible
	pulse-ratio-uncommon realign-enters-later realign-mistakes realigns-too-late return-of-a-growing-cycle
	return-of-a-growing-cycle-outside-the-set return-too-late shrinks-away shrinks-to-nothing syllables
	tempo-chain tempo-equation-first tempo-equation-too-fast tempo-equation-unknown-value tempo-hexadecimal
	tempo-of-a-tuplet tempo-too-exact tempo-too-fast tempo-unknown-value title-line-break title-missing
	yaml-anchor yaml-block-value yaml-document-end yaml-escaped-control yaml-glued-comment yaml-merge yaml-tag
	yaml-two-documents
`)

func TestSchemaRefusesWhatIsBroken(t *testing.T) {
	r := readRules(t)
	for _, file := range brokenFiles(t) {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		v, ok := plainValue(text)
		accepted := ok && r.accepts(r.root, v)
		assert.Equal(t, slices.Contains(beyondSchema, name), accepted, "%s: let the schema refuse it, or list it in beyondSchema", name)
	}
}
