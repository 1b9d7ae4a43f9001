package facts

import (
	"bytes"
	"encoding/json"
	"math/big"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	"tieover/score/sample"
	"tieover/score/spec/spectest"
)

// The JSON says the same as its own parts: drift from heads and bars, the
// composite from the attacks of the layers, totals from steps. Nothing here
// shares code with the report.
func TestJSONAgreesWithItself(t *testing.T) {
	for _, name := range spectest.Sections(t, 3) {
		var out bytes.Buffer
		require.NoError(t, Write(&out, spectest.ReadFiles(t, name)))
		var doc struct {
			Version int
			Layers  []struct {
				Name   string
				Cycles []struct {
					Head, Start string
					Drift       struct {
						Barline *drifted
						Layers  map[string]drifted
					}
				}
				Attacks []struct{ Onset string }
			}
			Composite []struct {
				Onset  string
				Layers []string
			}
			AttacksPerBar []struct{ Attacks int }
		}
		require.NoError(t, json.Unmarshal(out.Bytes(), &doc), name)
		assert.Equal(t, 1, doc.Version)

		strikers := map[string][]string{}
		for _, l := range doc.Layers {
			var barline chain
			others := map[string]*chain{}
			for _, c := range l.Cycles {
				barline.add(t, c.Drift.Barline)
				for other, s := range c.Drift.Layers {
					if others[other] == nil {
						others[other] = &chain{}
					}
					others[other].add(t, &s)
				}
			}
			for _, a := range l.Attacks {
				strikers[a.Onset] = append(strikers[a.Onset], l.Name)
			}
		}
		perBar := 0
		for _, b := range doc.AttacksPerBar {
			perBar += b.Attacks
		}
		assert.Equal(t, len(strikers), perBar, name)
		require.Len(t, doc.Composite, len(strikers), name)
		last := rat(t, "-1")
		for _, m := range doc.Composite {
			assert.Equal(t, strikers[m.Onset], m.Layers, name)
			assert.Positive(t, rat(t, m.Onset).Cmp(last), name)
			last = rat(t, m.Onset)
		}
	}
}

type drifted struct {
	Place, Total string
	Step         *string
}

// chain checks that totals are the sums of steps.
type chain struct{ total *big.Rat }

func (c *chain) add(t *testing.T, s *drifted) {
	t.Helper()
	if s == nil {
		return
	}
	if s.Step == nil {
		assert.Equal(t, "0", s.Total)
		c.total = new(big.Rat)
		return
	}
	require.NotNil(t, c.total, "the first head has no step")
	c.total.Add(c.total, rat(t, *s.Step))
	assert.Equal(t, c.total.RatString(), s.Total)
}

func rat(t *testing.T, s string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(s)
	require.True(t, ok, s)
	return r
}

func TestSameBytes(t *testing.T) {
	for _, name := range spectest.Sections(t, 3)[:4] {
		var first, second bytes.Buffer
		require.NoError(t, Write(&first, spectest.ReadFiles(t, name)))
		require.NoError(t, Write(&second, spectest.ReadFiles(t, name)))
		assert.Equal(t, first.String(), second.String())
	}
}

// Several specs are sections of one piece, each with the same keys.
func TestSectionsOfAPiece(t *testing.T) {
	names := spectest.Sections(t, 3)
	var out bytes.Buffer
	require.NoError(t, Write(&out, spectest.ReadFiles(t, names[3], names[5])))
	var doc map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &doc))
	list, ok := doc["sections"].([]any)
	require.True(t, ok)
	require.Len(t, list, 2)
	assert.Contains(t, list[1], "layers")
}

// Memory while writing does not grow with the section: a hundred times longer
// takes no more.
func TestJSONStreams(t *testing.T) {
	if testing.Short() {
		t.Skip("writes a long section")
	}
	long := func(bars string) *score.Piece {
		return spectest.Read(t, "title: T\nmeter: 4/4\nlength: "+bars+" bars\nlayers: [{name: A, groups: 3+2+2}, {name: B, groups: 3+3+2+3}]\n")
	}
	peak := func(p *score.Piece) uint64 {
		high := &high{}
		require.NoError(t, Write(high, p))
		return high.most
	}
	low, most := peak(long("300")), peak(long("15000"))
	assert.Less(t, most, 2*low+(8<<20), "%d bytes live against %d", most, low)
}

// high notes the most memory in use while it is written to.
type high struct {
	most   uint64
	writes int
}

func (h *high) Write(p []byte) (int, error) {
	if h.writes++; h.writes%64 == 1 {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		h.most = max(h.most, m.HeapAlloc)
	}
	return len(p), nil
}

// Random pieces of several sections, with everything a spec may say, make JSON that
// reads.
func TestRandomPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var out bytes.Buffer
		require.NoError(t, Write(&out, spectest.Read(t, sample.YAMLs(t)...)))
		assert.True(t, json.Valid(out.Bytes()))
	})
}
