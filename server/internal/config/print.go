package config

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/goccy/go-yaml"
)

// Print writes the settings in force as a file that could be read again, but for what is secret.
func (s *Settings) Print(to io.Writer) error {
	shown := *s
	shown.Catalogues = slices.Clone(s.Catalogues)
	for i := range shown.Catalogues {
		c := &shown.Catalogues[i]
		c.Env = slices.Clone(c.Env)
		for j, pair := range c.Env {
			if name, _, valued := strings.Cut(pair, "="); valued {
				c.Env[j] = name + "=" + mask
			}
		}
	}
	text, err := yaml.MarshalWithOptions(&shown, yaml.IndentSequence(true))
	if err != nil {
		return fmt.Errorf("print settings: %w", err)
	}
	_, err = to.Write(text)
	return err
}
