package grouping_test

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// row is one line of a table in testdata, by column name. Each names the
// published source of its values; "computed independently" means by another
// program than this one.
type row map[string]string

func table(t *testing.T, name string) []row {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name + ".tsv")
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
	head := strings.Split(lines[0], "\t")
	require.Contains(t, head, "source")
	var rows []row
	for _, line := range lines[1:] {
		cells := strings.Split(line, "\t")
		require.Len(t, cells, len(head), line)
		r := row{}
		for i, c := range cells {
			r[head[i]] = c
		}
		require.NotEmpty(t, r["source"], line)
		rows = append(rows, r)
	}
	require.NotEmpty(t, rows)
	return rows
}

func (r row) int(t *testing.T, column string) int {
	t.Helper()
	n, err := strconv.Atoi(r[column])
	require.NoError(t, err, column)
	return n
}

func (r row) float(t *testing.T, column string) float64 {
	t.Helper()
	f, err := strconv.ParseFloat(r[column], 64)
	require.NoError(t, err, column)
	return f
}

// ints reads numbers between the given separators.
func (r row) ints(t *testing.T, column, separator string) []int {
	t.Helper()
	var list []int
	for _, s := range strings.Split(r[column], separator) {
		n, err := strconv.Atoi(strings.TrimSpace(s))
		require.NoError(t, err, r[column])
		list = append(list, n)
	}
	return list
}
