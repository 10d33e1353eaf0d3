package intake

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"

	"google.golang.org/protobuf/encoding/protojson"

	csvcatalogue "example.com/pondwright/plugins/csv"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// A Reader gives the curves of a file, one by one.
type Reader struct {
	Path  string
	Size  int64 // bytes; 0 where not known
	table *table
	lines *lines
	said  []string
	read  *counter
	close func() error
}

// counter counts what was read of a file.
type counter struct {
	in io.Reader
	n  atomic.Int64
}

func (c *counter) Read(p []byte) (int, error) {
	n, err := c.in.Read(p)
	c.n.Add(int64(n))
	return n, err
}

// Open opens a file of curves: .csv (or any text), .jsonl (one JSON object a line), .xlsx, or a folder with pump_curves.csv and, if it is
// there, pumps.csv. "-" is standard input, as text. columns maps names of the contract to headings of the file.
func Open(path string, stdin io.Reader, columns map[string]string) (*Reader, error) {
	r, err := open(path, stdin, columns)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return r, nil
}

func open(path string, stdin io.Reader, columns map[string]string) (*Reader, error) {
	if path == "-" {
		return fromText(path, "standard input", stdin, 0, func() error { return nil }, columns)
	}
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if info.IsDir() {
		return fromFolder(path, columns)
	}
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	if strings.EqualFold(filepath.Ext(path), ".xlsx") {
		return fromWorkbook(path, name, columns)
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	r, err := fromText(path, name, file, info.Size(), file.Close, columns)
	if err != nil {
		return nil, errors.Join(err, file.Close())
	}
	return r, nil
}

func fromText(path, name string, in io.Reader, size int64, closing func() error, columns map[string]string) (*Reader, error) {
	counted := &counter{in: in}
	text, encoding, err := decoded(counted)
	if err != nil {
		return nil, err
	}
	r := &Reader{Path: path, Size: size, read: counted, close: closing, said: []string{"encoding: " + encoding}}
	if isLines(path, text) {
		r.lines = &lines{in: text}
		r.said = append(r.said, "layout: a JSON object a line, with the fields of CurveItem")
		return r, nil
	}
	m, err := mannerOf(text)
	if err != nil {
		return nil, err
	}
	r.table, err = newTable(asCSV(text, m), m, columns)
	if err != nil {
		return nil, err
	}
	r.table.name = name
	r.said = append(r.said, r.table.reads()...)
	return r, nil
}

// isLines says whether a text is JSON lines: by its name, or since it begins with a brace.
func isLines(path string, in *bufio.Reader) bool {
	switch strings.ToLower(filepath.Ext(path)) {
	case ".jsonl", ".ndjson":
		return true
	}
	head, _ := in.Peek(256)
	return bytes.HasPrefix(bytes.TrimLeft(head, " \r\n\t"), []byte("{"))
}

func fromWorkbook(path, name string, columns map[string]string) (*Reader, error) {
	sheetName, all, err := csvcatalogue.FirstSheet(path, "")
	if err != nil {
		return nil, err
	}
	t, err := newTable(&sheet{left: all}, manner{separator: ','}, columns)
	if err != nil {
		return nil, fmt.Errorf("sheet %s: %w", sheetName, err)
	}
	t.name = name
	return &Reader{Path: path, table: t, close: func() error { return nil }, said: append([]string{"sheet: " + sheetName}, t.reads()...)}, nil
}

// fromFolder joins the curves of a catalogue's folder with what its table of pumps says of them.
func fromFolder(path string, columns map[string]string) (*Reader, error) {
	r, err := Open(filepath.Join(path, "pump_curves.csv"), nil, columns)
	if err != nil {
		return nil, err
	}
	if r.table == nil || r.table.layout != long {
		return nil, errors.Join(errors.New("pump_curves.csv has to have a row for each point"), r.Close())
	}
	file, err := os.Open(filepath.Join(path, "pumps.csv"))
	if errors.Is(err, os.ErrNotExist) {
		return r, nil
	}
	if err != nil {
		return nil, errors.Join(err, r.Close())
	}
	r.table.extra, err = pumpsOf(file)
	if err = errors.Join(err, file.Close()); err != nil {
		return nil, errors.Join(fmt.Errorf("pumps.csv: %w", err), r.Close())
	}
	r.said = append(r.said, fmt.Sprintf("pumps.csv gives power and labels of %d pumps", len(r.table.extra)))
	return r, nil
}

func pumpsOf(in io.Reader) (map[string]extra, error) {
	text, _, err := decoded(in)
	if err != nil {
		return nil, err
	}
	m, err := mannerOf(text)
	if err != nil {
		return nil, err
	}
	t := &table{rows: asCSV(text, m), manner: m}
	header, err := t.rows.next()
	if err != nil {
		return nil, err
	}
	for i, heading := range header.Cells {
		c, err := understand(strings.TrimSpace(heading))
		if err == nil && c.name != "" && !c.atHead {
			c.index, c.heading = i, heading
			t.columns = append(t.columns, c)
		}
	}
	all := map[string]extra{}
	for {
		row, err := t.rows.next()
		if errors.Is(err, io.EOF) {
			return all, nil
		}
		if err != nil {
			return nil, err
		}
		var e extra
		var item Item
		for _, c := range t.columns {
			switch c.name {
			case colPower:
				e.power = t.figure(&item, row, c)
			case colLabelFlow:
				e.labelFlow = t.figure(&item, row, c)
			case colLabelHead:
				e.labelHead = t.figure(&item, row, c)
			}
		}
		number, _ := t.number(row)
		all[number] = e
	}
}

func asCSV(in io.Reader, m manner) *text {
	b := &bounded{in: in}
	reader := newCSV(b, m)
	return &text{bound: b, csv: reader}
}

// Reads says how the file was understood, column by column.
func (r *Reader) Reads() []string { return r.said }

// Read is how many bytes of the file were read.
func (r *Reader) Read() int64 {
	if r.read == nil {
		return 0
	}
	return r.read.n.Load()
}

// Close closes the file.
func (r *Reader) Close() error { return r.close() }

// Next gives the next curve; io.EOF after the last.
func (r *Reader) Next() (Item, error) {
	var item Item
	var err error
	if r.lines != nil {
		item, err = r.lines.next()
	} else {
		item, err = r.table.next()
	}
	if err != nil && !errors.Is(err, io.EOF) {
		err = fmt.Errorf("%s: %w", r.Path, err)
	}
	return item, err
}

// lines is a file of JSON lines on its way in.
type lines struct {
	in   *bufio.Reader
	line int
}

func (l *lines) text() ([]byte, error) {
	var whole []byte
	for {
		part, err := l.in.ReadSlice('\n')
		whole = append(whole, part...)
		switch {
		case len(whole) > mostRecord:
			return nil, fmt.Errorf("line %d: %w", l.line+1, errLong)
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case errors.Is(err, io.EOF) && len(whole) > 0:
			err = nil
		}
		l.line++
		return bytes.TrimSpace(whole), err
	}
}

func (l *lines) next() (Item, error) {
	for {
		text, err := l.text()
		if err != nil {
			return Item{}, err
		}
		if len(text) == 0 {
			continue
		}
		item := Item{Row: l.line, Message: &pondwrightv1.CurveItem{}}
		if err := protojson.Unmarshal(text, item.Message); err != nil {
			item.Message = &pondwrightv1.CurveItem{ItemNumber: fmt.Sprintf("line %d", l.line)}
			item.Problems = []Problem{{Row: l.line, Text: "is not a CurveItem in JSON: " + strings.ReplaceAll(err.Error(), "\u00a0", " ")}}
		}
		return item, nil
	}
}
