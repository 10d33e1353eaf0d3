package config

import (
	"fmt"

	"github.com/alecthomas/kong"
)

// Defaults are the settings where nothing is said.
func Defaults() (*Settings, error) {
	var s struct{ Settings }
	parser, err := kong.New(&s)
	if err != nil {
		return nil, fmt.Errorf("settings: %w", err)
	}
	if _, err := parser.Parse(nil); err != nil {
		return nil, fmt.Errorf("settings: %w", err)
	}
	return &s.Settings, nil
}
