package main

import (
	"os"
	"strconv"

	"golang.org/x/term"
)

// unknownWidth is how wide a page is where nobody says.
const unknownWidth = 80

// terminal says what a stream can show: whether it is a terminal, how wide, and whether colour is wanted on it. COLUMNS
// overrides the width.
func terminal(f *os.File, getenv func(string) string) (isTerminal bool, width int, color bool) {
	isTerminal, width = term.IsTerminal(int(f.Fd())), unknownWidth
	if w, _, err := term.GetSize(int(f.Fd())); err == nil && w > 0 {
		width = w
	}
	if w, err := strconv.Atoi(getenv("COLUMNS")); err == nil && w > 0 {
		width = w
	}
	return isTerminal, width, isTerminal && colorWanted(getenv)
}

// colorWanted is false where NO_COLOR is set or the terminal calls itself dumb.
func colorWanted(getenv func(string) string) bool {
	return getenv("NO_COLOR") == "" && getenv("TERM") != "dumb"
}
