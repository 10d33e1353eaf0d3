// Package reftest reads the reference tables of testdata/reference for tests.
//
// A table is CSV. Lines that start with # say where the values come from; the first other line names the columns, with
// their units.
package reftest

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// A Row is one line of a table by column name.
type Row struct {
	t      testing.TB
	file   string
	line   int
	fields map[string]string
}

// Table reads testdata/reference/name. A table without rows fails the test, so that a check cannot pass on nothing.
func Table(t testing.TB, name string) []Row {
	t.Helper()
	path := filepath.Join(root(t), "testdata", "reference", filepath.FromSlash(name))
	f, err := os.Open(path)
	require.NoError(t, err)
	defer func() { require.NoError(t, f.Close()) }()

	r := csv.NewReader(f)
	r.Comment = '#'
	header, err := r.Read()
	require.NoError(t, err, "%s: header", name)
	records, err := r.ReadAll()
	require.NoError(t, err, name)
	require.NotEmpty(t, records, "%s has no rows", name)

	rows := make([]Row, len(records))
	for i, record := range records {
		fields := make(map[string]string, len(header))
		for j, column := range header {
			fields[column] = record[j]
		}
		rows[i] = Row{t: t, file: name, line: i + 1, fields: fields}
	}
	return rows
}

// Text is the field of that column. A column the table lacks fails the test.
func (r Row) Text(column string) string {
	r.t.Helper()
	text, ok := r.fields[column]
	require.True(r.t, ok, "%s has no column %s", r.file, column)
	return text
}

// Float is the number in that column.
func (r Row) Float(column string) float64 {
	r.t.Helper()
	v, err := strconv.ParseFloat(r.Text(column), 64)
	require.NoError(r.t, err, "%s row %d column %s", r.file, r.line, column)
	return v
}

// HalfDigit is half a unit of the last digit that column prints: the tolerance of a published value.
func (r Row) HalfDigit(column string) float64 {
	r.t.Helper()
	text := r.Text(column)
	for i, c := range text {
		if c == '.' {
			digits := len(text) - i - 1
			v := 0.5
			for range digits {
				v /= 10
			}
			return v
		}
	}
	return 0.5
}

// root finds the repository from this file, so that a test may run in any folder.
func root(t testing.TB) string {
	t.Helper()
	_, file, _, ok := runtime.Caller(0)
	require.True(t, ok)
	return filepath.Join(filepath.Dir(file), "..", "..", "..")
}
