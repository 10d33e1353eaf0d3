package main

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func environment(values map[string]string) func(string) string {
	return func(name string) string { return values[name] }
}

func TestAPipeIsNoTerminal(t *testing.T) {
	reading, writing, err := os.Pipe()
	require.NoError(t, err)
	defer reading.Close()
	defer writing.Close()

	isTerminal, width, color := terminal(writing, environment(nil))
	assert.False(t, isTerminal)
	assert.Equal(t, 80, width)
	assert.False(t, color)

	for columns, want := range map[string]int{"120": 120, "0": 80, "-3": 80, "wide": 80} {
		_, width, _ = terminal(writing, environment(map[string]string{"COLUMNS": columns}))
		assert.Equal(t, want, width, columns)
	}
}

func TestColourCanBeRefused(t *testing.T) {
	assert.True(t, colorWanted(environment(map[string]string{"TERM": "xterm"})))
	assert.True(t, colorWanted(environment(map[string]string{"NO_COLOR": ""})), "set to nothing is not set: no-color.org")
	assert.False(t, colorWanted(environment(map[string]string{"NO_COLOR": "1", "TERM": "xterm"})))
	assert.False(t, colorWanted(environment(map[string]string{"TERM": "dumb"})))
}
