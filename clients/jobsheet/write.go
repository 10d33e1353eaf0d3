package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/jobsheet/leaf"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// A written file, for the reader to be told of.
type written struct {
	name string
	text []byte
}

// vacant refuses files that exist before anything is worked out, unless they may be replaced.
func vacant(a arguments, names ...string) error {
	seen := map[string]bool{}
	for _, name := range names {
		if name == "" {
			continue
		}
		if seen[name] {
			return fmt.Errorf("%s is named twice: give each file a name of its own", name)
		}
		seen[name] = true
		_, err := os.Lstat(name)
		switch {
		case err == nil && !a.Replace:
			return fmt.Errorf("%s exists; give another name, or --replace to write over it", name)
		case err != nil && !errors.Is(err, fs.ErrNotExist):
			return err
		}
	}
	return nil
}

// put writes the files. One that came to be in the meantime is not written over either.
func put(a arguments, files []written) error {
	how := os.O_WRONLY | os.O_CREATE | os.O_EXCL
	if a.Replace {
		how = os.O_WRONLY | os.O_CREATE | os.O_TRUNC
	}
	for _, f := range files {
		to, err := os.OpenFile(f.name, how, 0o644)
		if err != nil {
			return err
		}
		_, err = to.Write(f.text)
		if err := errors.Join(err, to.Close()); err != nil {
			return fmt.Errorf("write %s: %w", f.name, err)
		}
	}
	return nil
}

// files are those that were asked for of a plan.
func files(a arguments, plan *pondwrightv1.PlanJobResponse) ([]written, error) {
	var made []written
	if a.Page != "" {
		page, err := leaf.Page(plan)
		if err != nil {
			return nil, err
		}
		made = append(made, written{a.Page, page})
	}
	if a.Plan != "" {
		text, err := asJSON(plan)
		if err != nil {
			return nil, err
		}
		made = append(made, written{a.Plan, []byte(text)})
	}
	if a.Quantities != "" {
		text, err := asCSV(plan)
		if err != nil {
			return nil, err
		}
		made = append(made, written{a.Quantities, text})
	}
	return made, nil
}

// asCSV writes quantities as RFC 4180 has it, with plain numbers to six digits: a spreadsheet is to add them up. A cell that a spreadsheet would
// take for a formula is led by an apostrophe.
func asCSV(plan *pondwrightv1.PlanJobResponse) ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.UseCRLF = true
	rows := [][]string{{"what", "quantity", "unit", "note"}}
	for _, line := range leaf.Lines(plan) {
		rows = append(rows, []string{harmless(line.Name), figure.Plain(line.Quantity, 6), harmless(line.Unit), harmless(line.Note)})
	}
	err := w.WriteAll(rows)
	return out.Bytes(), err
}

func harmless(cell string) string {
	if cell != "" && (cell[0] == '=' || cell[0] == '+' || cell[0] == '-' || cell[0] == '@' || cell[0] == '\t' || cell[0] == '\r') {
		return "'" + cell
	}
	return cell
}
