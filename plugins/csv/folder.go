package csvcatalogue

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/pondwright/plugins/contract"
)

// maxFileBytes bounds one file. Ten thousand pumps with ten points each take about 4 MB.
const maxFileBytes = 64 << 20

// csvLabel is the file of a table.
func csvLabel(name string) string { return name + ".csv" }

// readFolder reads every CSV file of a folder. Files of other kinds, and hidden ones, may lie there too.
func readFolder(dir string) (book, []contract.Problem, error) {
	files, err := readFiles(dir)
	if err != nil {
		return book{}, nil, err
	}
	b, problems := folderBook(files)
	return b, problems, nil
}

// readFiles gives the contents of the CSV files of a folder by name.
func readFiles(dir string) (map[string][]byte, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	files := make(map[string][]byte)
	for _, entry := range entries {
		name := entry.Name()
		if entry.IsDir() || strings.HasPrefix(name, ".") || !strings.EqualFold(filepath.Ext(name), ".csv") {
			continue
		}
		if files[name], err = readBounded(filepath.Join(dir, name)); err != nil {
			return nil, err
		}
	}
	return files, nil
}

// readBounded reads a file that is not too large to be what it should be.
func readBounded(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if info.Size() > maxFileBytes {
		return nil, fmt.Errorf("%s is larger than %d MiB: split the catalogue", filepath.Base(path), maxFileBytes>>20)
	}
	return os.ReadFile(path)
}

// folderBook makes a book of the contents of files. A file that cannot be read leaves no sheet but a problem.
func folderBook(files map[string][]byte) (book, []contract.Problem) {
	b := book{sheets: make(map[string]sheet), label: csvLabel, revision: revision(files)}
	var problems []contract.Problem
	for _, name := range slices.Sorted(maps.Keys(files)) {
		s, problem := readSheet(name, files[name])
		if problem != nil {
			problems = append(problems, *problem)
			s = sheet{label: name, broken: true}
		}
		b.sheets[strings.TrimSuffix(name, filepath.Ext(name))] = s
	}
	return b, problems
}

// revision changes whenever a file does.
func revision(files map[string][]byte) string {
	sum := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(files)) {
		fmt.Fprintf(sum, "%s %d\n", name, len(files[name]))
		sum.Write(files[name])
	}
	return hex.EncodeToString(sum.Sum(nil)[:8])
}
