package spec

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type object struct {
	Properties           map[string]json.RawMessage
	Required             []string
	AdditionalProperties any
	Defs                 map[string]json.RawMessage `json:"$defs"`
}

func schema(t *testing.T, text []byte) object {
	t.Helper()
	var o object
	require.NoError(t, json.Unmarshal(text, &o))
	return o
}

// TestSchemaKeys holds the schema for editors to the reader's own keys, in both
// directions: map by map, no key more and none less.
func TestSchemaKeys(t *testing.T) {
	text, err := os.ReadFile("../../templates/schema.json")
	require.NoError(t, err)
	root := schema(t, text)
	maps := map[string]object{"section": root}
	for name, def := range root.Defs {
		if o := schema(t, def); o.Properties != nil {
			maps[name] = o
		}
	}
	tables := KeyTables()
	assert.Len(t, maps, len(tables), "maps of the schema")
	for _, table := range tables {
		o, ok := maps[table.Name]
		if !assert.True(t, ok, "the schema lacks %s", table.Name) {
			continue
		}
		var keys []string
		for key := range o.Properties {
			keys = append(keys, key)
		}
		assert.ElementsMatch(t, table.Keys, keys, table.Name)
		assert.Equal(t, false, o.AdditionalProperties, "%s allows unknown keys", table.Name)
	}
}

// TestSchemaWords holds the words that the schema lists to those of the reader.
func TestSchemaWords(t *testing.T) {
	text, err := os.ReadFile("../../templates/schema.json")
	require.NoError(t, err)
	root := schema(t, text)
	layer := schema(t, root.Defs["layer"])
	plan := schema(t, root.Defs["plan"])
	process := schema(t, root.Defs["process"])
	for name, c := range map[string]struct {
		in   json.RawMessage
		want []string
	}{
		"end": {root.Defs["end"], endWords()}, "strike": {layer.Properties["strike"], strikeWords()},
		"accent": {layer.Properties["accent"], accentWords()}, "restart": {layer.Properties["restart"], restartWords()},
		"tails": {layer.Properties["tails"], tailWords()}, "dynamic": {root.Defs["dynamic"], dynamicWords()},
		"hairpin": {plan.Properties["hairpin"], hairpinWords()}, "until": {process.Properties["until"], untilWords()},
	} {
		var e struct{ Enum []string }
		require.NoError(t, json.Unmarshal(c.in, &e), name)
		assert.Equal(t, c.want, e.Enum, name)
	}
}

// TestStarters: every starter spec reads without a word, and all of them
// together use every key that a section, a layer and a plan may have.
func TestStarters(t *testing.T) {
	files, err := filepath.Glob("../../templates/*.yaml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 8)
	var all strings.Builder
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		piece, problems, warnings := read([]File{{file, text}})
		assert.Empty(t, problems)
		assert.Empty(t, warnings)
		require.NotNil(t, piece, file)
		assert.True(t, strings.HasPrefix(string(text), "# "), "%s begins with what it shows", file)
		for i, line := range splitLines(string(text)) {
			if !strings.Contains(line, "line: ") {
				assert.LessOrEqual(t, len([]rune(line)), 100, "%s:%d is too long to read", file, i+1)
			}
		}
		all.Write(text)
	}
	for _, table := range KeyTables() {
		for _, key := range table.Keys {
			if slices.Contains([]string{"arranger", "rights", "append", "size", "stop-when-empty", "cycle", "short"}, key) {
				continue // explained in the reference only
			}
			assert.Contains(t, all.String(), key+":", "no starter shows %s", key)
		}
	}
}
