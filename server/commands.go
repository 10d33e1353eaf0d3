package main

import (
	"crypto/rand"
	"crypto/sha256"
	"fmt"

	csvcatalogue "example.com/pondwright/plugins/csv"
)

type checkCommand struct{}

// Run says what is wrong with the settings.
func (checkCommand) Run(o *options, e environment) error {
	if err := o.check(); err != nil {
		return err
	}
	_, err := fmt.Fprintln(e.out, "the settings are in order")
	return err
}

type templatesCommand struct {
	Folder string `arg:"" help:"Folder to write into; it is made, and nothing in it is overwritten."`
}

// Run writes the empty tables.
func (c templatesCommand) Run(e environment) error {
	if err := csvcatalogue.WriteTemplates(c.Folder); err != nil {
		return err
	}
	_, err := fmt.Fprintf(e.out, "the tables are in %s; %s says what their columns hold\n", c.Folder, csvcatalogue.GuideFile)
	return err
}

type tokenCommand struct{}

// Run prints a token, which is kept nowhere, and its digest.
func (tokenCommand) Run(e environment) error {
	token := rand.Text() + rand.Text()
	_, err := fmt.Fprintf(e.out, "token for the client, shown this once: %s\nfor the settings:\n  - name: NAME\n    token_sha256: %x\n    roles: [calculate]\n",
		token, sha256.Sum256([]byte(token)))
	return err
}
