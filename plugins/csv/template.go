package csvcatalogue

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"google.golang.org/protobuf/reflect/protoreflect"

	"example.com/pondwright/plugins/csv/internal/xlsx"
)

// Names of the files among the templates that are no table.
const (
	// GuideFile is the guide to the columns, in Markdown.
	GuideFile = "COLUMNS.md"
	// WorkbookFile is the workbook of all tables.
	WorkbookFile = "catalogue.xlsx"
)

// Templates are the files that a merchant fills in, by name: every table as a CSV file with its columns and no rows, all of
// them as the sheets of one workbook, and the column guide. They are made from the contract, and so always those that are read.
func Templates() (map[string][]byte, error) {
	templates := map[string][]byte{GuideFile: []byte(Guide())}
	for _, t := range newTables().all() {
		templates[csvLabel(t.name)] = csvBytes(t.names())
	}
	workbook, err := workbookTemplate()
	if err != nil {
		return nil, fmt.Errorf("making the workbook template: %w", err)
	}
	templates[WorkbookFile] = workbook
	return templates, nil
}

// WriteTemplates writes the templates into a folder, which it makes. It overwrites nothing: where one of the files is there
// already it writes none and says so.
func WriteTemplates(dir string) error {
	files, err := Templates()
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("folder for the templates: %w", err)
	}
	for name := range files {
		if _, err := os.Stat(filepath.Join(dir, name)); !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("%s is there already: write the templates into another folder", filepath.Join(dir, name))
		}
	}
	for name, content := range files {
		if err := os.WriteFile(filepath.Join(dir, name), content, 0o644); err != nil {
			return fmt.Errorf("writing a template: %w", err)
		}
	}
	return nil
}

// workbookTemplate is a workbook with a sheet for each table and the column guide on one that is not read.
func workbookTemplate() ([]byte, error) {
	all := notes()
	guide := xlsx.Form{Name: "_columns", Columns: []xlsx.FormColumn{
		{Heading: "sheet", Width: 14}, {Heading: "column", Width: 30}, {Heading: "needed", Width: 12}, {Heading: "what it says", Width: 70},
		{Heading: "allowed", Width: 40}, {Heading: "or in", Width: 40}, {Heading: "example", Width: 30},
	}}
	var forms []xlsx.Form
	for _, t := range newTables().all() {
		form := xlsx.Form{Name: t.name}
		for _, c := range t.columns {
			column := xlsx.FormColumn{Heading: c.name, Text: c.name == numberColumn}
			if c.field().Kind() == protoreflect.EnumKind {
				column.Choices = enumWords(c.field().Enum())[1:]
			}
			form.Columns = append(form.Columns, column)
			n, _ := noteOf(all, t.name, c.name)
			guide.Rows = append(guide.Rows, []string{t.name, c.name, needed(c), n.what, c.allowed(), c.otherNames(), n.example})
		}
		forms = append(forms, form)
	}
	return xlsx.Write(append(forms, guide))
}
