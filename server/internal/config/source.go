package config

import (
	"fmt"
	"path/filepath"

	"example.com/pondwright/server/internal/catalogue"
)

// Sources are the catalogues as the engine takes them.
func (s *Settings) Sources() ([]catalogue.Source, error) {
	var made []catalogue.Source
	for _, c := range s.Catalogues {
		source, err := c.source()
		if err != nil {
			return nil, fmt.Errorf("catalogue %s: %w", c.Name, err)
		}
		made = append(made, source)
	}
	return made, nil
}

func (c Catalogue) source() (catalogue.Source, error) {
	var s catalogue.Source
	var err error
	if c.From != "" {
		s, err = catalogue.CSV(c.Name, string(c.From))
	} else {
		s.Plugin.Name, s.Plugin.Args = c.Name, c.Args
		s.Plugin.Path, err = filepath.Abs(string(c.Program))
	}
	for _, w := range c.Watch {
		s.Watch = append(s.Watch, string(w))
	}
	s.Priority, s.Refresh, s.LiveTimeout = c.Priority, c.Refresh, c.LiveTimeout
	p := &s.Plugin
	p.SHA256, p.Env, p.PlainSocket = c.SHA256, c.Env, c.PlainSocket
	p.StartTimeout, p.CallTimeout = c.StartTimeout, c.CallTimeout
	p.MaxItems, p.MaxMemory = c.MaxItems, int64(c.Memory)
	return s, err
}
