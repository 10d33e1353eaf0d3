package xlsx

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// Form is a sheet to be filled in: its columns, and rows where there are any.
type Form struct {
	Name    string
	Columns []FormColumn
	Rows    [][]string
}

// FormColumn is one column of a form.
type FormColumn struct {
	Heading string
	Choices []string // the words that a cell may have; nil where any will do
	Text    bool     // cells are text, so that a number such as 00120 keeps its zeros
	Width   float64  // in letters; 0 for that of the heading
}

// formRows are the rows that offer the choices of a column.
const formRows = 20_000

// Write makes a workbook of forms, with the headings in bold and held in sight.
func Write(forms []Form) ([]byte, error) {
	file := excelize.NewFile()
	defer file.Close()
	bold, err := file.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}})
	if err != nil {
		return nil, err
	}
	const textFormat = 49 // "@" of the formats that are built into every program
	text, err := file.NewStyle(&excelize.Style{NumFmt: textFormat})
	if err != nil {
		return nil, err
	}
	for i, form := range forms {
		if i == 0 {
			err = file.SetSheetName(file.GetSheetName(0), form.Name)
		} else {
			_, err = file.NewSheet(form.Name)
		}
		if err == nil {
			err = form.write(file, bold, text)
		}
		if err != nil {
			return nil, fmt.Errorf("sheet %s: %w", form.Name, err)
		}
	}
	buffer, err := file.WriteToBuffer()
	if err != nil {
		return nil, err
	}
	return buffer.Bytes(), nil
}

func (f Form) write(file *excelize.File, bold, text int) error {
	headings := make([]string, len(f.Columns))
	for i, c := range f.Columns {
		headings[i] = c.Heading
		if err := c.dress(file, f.Name, i+1, text); err != nil {
			return err
		}
	}
	for i, row := range append([][]string{headings}, f.Rows...) {
		if err := file.SetSheetRow(f.Name, fmt.Sprintf("A%d", i+1), &row); err != nil {
			return err
		}
	}
	if err := file.SetRowStyle(f.Name, 1, 1, bold); err != nil {
		return err
	}
	return file.SetPanes(f.Name, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"})
}

// dress gives a column its width, its format and its choices.
func (c FormColumn) dress(file *excelize.File, sheet string, number, text int) error {
	name, err := excelize.ColumnNumberToName(number)
	if err != nil {
		return err
	}
	width := c.Width
	if width == 0 {
		width = float64(len(c.Heading) + 2)
	}
	if err := file.SetColWidth(sheet, name, name, width); err != nil {
		return err
	}
	if c.Text {
		if err := file.SetColStyle(sheet, name, text); err != nil {
			return err
		}
	}
	if c.Choices == nil {
		return nil
	}
	offer := excelize.NewDataValidation(true)
	offer.SetSqref(fmt.Sprintf("%s2:%s%d", name, name, formRows))
	if err := offer.SetDropList(c.Choices); err != nil {
		return err
	}
	return file.AddDataValidation(sheet, offer)
}
