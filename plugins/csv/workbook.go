package csvcatalogue

import (
	"fmt"
	"path/filepath"
	"strings"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/csv/internal/xlsx"
)

// sheetLabel names a sheet in messages.
func sheetLabel(name string) string { return "sheet " + name }

// readWorkbook reads an xlsx workbook with the tables as sheets: "pumps" for pumps.csv. A sheet whose name begins with an
// underscore is the merchant's own and is not read.
func readWorkbook(path string) (book, []contract.Problem, error) {
	if !strings.EqualFold(filepath.Ext(path), ".xlsx") {
		return book{}, nil, fmt.Errorf("is neither a folder of CSV files nor an xlsx workbook")
	}
	content, err := readBounded(path)
	if err != nil {
		return book{}, nil, err
	}
	b, err := workbookBook(content)
	return b, nil, err
}

// workbookBook makes a book of the content of a workbook.
func workbookBook(content []byte) (book, error) {
	read, err := xlsx.Read(content, func(name string) bool { return !strings.HasPrefix(strings.TrimSpace(name), "_") })
	if err != nil {
		return book{}, err
	}
	b := book{sheets: make(map[string]sheet), label: sheetLabel, revision: revision(map[string][]byte{"xlsx": content})}
	for _, from := range read {
		name := strings.TrimSpace(from.Name)
		s := sheet{label: sheetLabel(name)}
		for _, r := range from.Rows {
			s.add(row{r.Number, r.Cells})
		}
		b.sheets[name] = s
	}
	return b, nil
}
