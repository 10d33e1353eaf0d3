// Package xlsx reads the cells of a workbook (Office Open XML, ECMA-376 part 1) as the text they stand for, and nothing else:
// no formats, formulas or pictures. Numbers come as they are stored, not as the sheet shows them, so that a column shown
// with one decimal is not read with one.
package xlsx

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
)

// Sheet is one sheet of a workbook.
type Sheet struct {
	Name string
	Rows []Row
}

// Row is one row that has cells. Cells that are left out in the file are empty.
type Row struct {
	Number int // from 1, as the program shows it
	Cells  []string
}

// What a cell reads as where it has no text or number to give. Neither is a number, and both say what to mend.
const (
	Date          = "(a date)"
	UnsolvedValue = "(a formula without its result)"
)

// Bounds on what a workbook may unpack to: a few hundred bytes can otherwise be told to fill the memory.
const (
	maxPartBytes = 64 << 20
	maxSheets    = 64
	maxColumns   = 256
)

// Read reads every sheet, in the order of the workbook.
func Read(content []byte) ([]Sheet, error) {
	archive, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return nil, fmt.Errorf("is not an xlsx workbook: %w", err)
	}
	w := workbook{parts: archive}
	if err := w.open(); err != nil {
		return nil, fmt.Errorf("is not an xlsx workbook that can be read: %w", err)
	}
	if len(w.sheets) > maxSheets {
		return nil, fmt.Errorf("has %d sheets, and %d are the most", len(w.sheets), maxSheets)
	}
	sheets := make([]Sheet, len(w.sheets))
	for i, s := range w.sheets {
		sheets[i].Name = s.Name
		if sheets[i].Rows, err = w.rows(s.path); err != nil {
			return nil, fmt.Errorf("sheet %s cannot be read: %w", s.Name, err)
		}
	}
	return sheets, nil
}

// workbook is an archive of parts that refer to one another.
type workbook struct {
	parts  *zip.Reader
	sheets []sheetRef
	texts  []string // shared by the cells of all sheets
	dates  []bool   // by cell style: whether a number in it is a date
}

type sheetRef struct {
	Name string `xml:"name,attr"`
	ID   string `xml:"id,attr"`
	path string
}

// open finds the sheets, and reads what they share.
func (w *workbook) open() error {
	main := "xl/workbook.xml"
	roots, err := w.relations("_rels/.rels", "")
	if err != nil {
		return err
	}
	for _, r := range roots {
		if strings.HasSuffix(r.Type, "/officeDocument") {
			main = r.Target
		}
	}
	var book struct {
		Sheets []sheetRef `xml:"sheets>sheet"`
	}
	if err := w.part(main, &book); err != nil {
		return err
	}
	dir, file := path.Split(main)
	relations, err := w.relations(dir+"_rels/"+file+".rels", dir)
	if err != nil {
		return err
	}
	for _, s := range book.Sheets {
		s.path = relations[s.ID].Target
		w.sheets = append(w.sheets, s)
	}
	for _, r := range relations {
		switch {
		case strings.HasSuffix(r.Type, "/sharedStrings"):
			err = errors.Join(err, w.readTexts(r.Target))
		case strings.HasSuffix(r.Type, "/styles"):
			err = errors.Join(err, w.readStyles(r.Target))
		}
	}
	return err
}

type relation struct {
	ID     string `xml:"Id,attr"`
	Type   string `xml:"Type,attr"`
	Target string `xml:"Target,attr"`
}

// relations are what a part refers to, by ID, with targets from the root of the archive.
func (w *workbook) relations(name, dir string) (map[string]relation, error) {
	var list struct {
		Relations []relation `xml:"Relationship"`
	}
	if err := w.part(name, &list); err != nil {
		return nil, err
	}
	byID := make(map[string]relation, len(list.Relations))
	for _, r := range list.Relations {
		if target, absolute := strings.CutPrefix(r.Target, "/"); absolute {
			r.Target = target
		} else {
			r.Target = path.Join(dir, r.Target)
		}
		byID[r.ID] = r
	}
	return byID, nil
}

// text is a piece of text, plain or in runs of different looks.
type text struct {
	Plain string `xml:"t"`
	Runs  []struct {
		Plain string `xml:"t"`
	} `xml:"r"`
}

func (t text) String() string {
	whole := t.Plain
	for _, run := range t.Runs {
		whole += run.Plain
	}
	return whole
}

func (w *workbook) readTexts(name string) error {
	var table struct {
		Texts []text `xml:"si"`
	}
	if err := w.part(name, &table); err != nil {
		return err
	}
	w.texts = make([]string, len(table.Texts))
	for i, t := range table.Texts {
		w.texts[i] = t.String()
	}
	return nil
}

// part reads a part of the archive into a value.
func (w *workbook) part(name string, into any) error {
	content, err := w.openPart(name)
	if err != nil {
		return err
	}
	defer content.Close()
	if err := xml.NewDecoder(content).Decode(into); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

// openPart opens a part, bounded.
func (w *workbook) openPart(name string) (io.ReadCloser, error) {
	file, err := w.parts.Open(name)
	if err != nil {
		return nil, err
	}
	info, err := file.Stat()
	if err == nil && info.Size() > maxPartBytes {
		err = fmt.Errorf("%s unpacks to more than %d MiB", name, maxPartBytes>>20)
	}
	if err != nil {
		return nil, errors.Join(err, file.Close())
	}
	return struct {
		io.Reader
		io.Closer
	}{io.LimitReader(file, maxPartBytes), file}, nil
}
