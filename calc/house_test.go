package calc_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc"
	"example.com/pondwright/calc/source"
)

// pure are the packages calc may import besides its own: arithmetic and the handling of values, nothing that reaches
// outside. (fmt itself uses os; calc only ever formats strings with it.)
var pure = map[string]bool{
	"cmp": true, "errors": true, "fmt": true, "iter": true, "maps": true, "math": true, "math/bits": true, "math/cmplx": true,
	"reflect": true, "slices": true, "sort": true, "strconv": true, "strings": true, "unicode": true,
}

const module = "example.com/pondwright/calc"

// calcFiles parses every file of calc that is no test, but for the reader of reference tables, which only tests use.
func calcFiles(t *testing.T) map[string]*ast.File {
	t.Helper()
	files := map[string]*ast.File{}
	set := token.NewFileSet()
	require.NoError(t, filepath.WalkDir(".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && name == filepath.Join("internal", "reftest") {
			return fs.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		files[filepath.ToSlash(name)], err = parser.ParseFile(set, name, nil, parser.ParseComments)
		return err
	}))
	require.Greater(t, len(files), 30)
	return files
}

func TestCalcReachesNothingOutside(t *testing.T) {
	for name, file := range calcFiles(t) {
		for _, spec := range file.Imports {
			imported, err := strconv.Unquote(spec.Path.Value)
			require.NoError(t, err)
			own := imported == module || strings.HasPrefix(imported, module+"/") && !strings.Contains(imported, "/internal/reftest")
			assert.True(t, own || pure[imported] || strings.HasPrefix(imported, "gonum.org/v1/gonum/"), "%s imports %s", name, imported)
		}
		for _, decl := range file.Decls {
			if f, ok := decl.(*ast.FuncDecl); ok && f.Recv == nil {
				assert.NotEqual(t, "init", f.Name.Name, "%s has an init", name)
			}
		}
	}
}

// Every formula that stands in the code is registered, is named after its room, says where it comes from, and tells a
// reader of the code as much.
func TestEveryFormulaIsRegisteredAndDocumented(t *testing.T) {
	registered := map[string]bool{}
	for _, entry := range calc.Formulas() {
		d := entry.Describe()
		assert.False(t, registered[d.ID], "%s is registered twice", d.ID)
		registered[d.ID] = true
		assert.NotEmpty(t, d.Name, d.ID)
		assert.NotEmpty(t, d.Equation, d.ID)
		assert.NotEqual(t, source.Source{}, d.Source, d.ID)
	}
	for name, file := range calcFiles(t) {
		for _, decl := range file.Decls {
			general, ok := decl.(*ast.GenDecl)
			if !ok || general.Tok != token.VAR {
				continue
			}
			for _, spec := range general.Specs {
				id, ok := formulaID(spec.(*ast.ValueSpec))
				if !ok {
					continue
				}
				assert.True(t, registered[id], "%s of %s is not registered", id, name)
				delete(registered, id)
				assert.Equal(t, path.Base(path.Dir(name)), strings.SplitN(id, ".", 2)[0], "%s is named after its room", id)
				assert.Contains(t, general.Doc.Text(), "Source:", "%s says in its comment where it comes from", id)
			}
		}
	}
	assert.Empty(t, registered, "registered, but not found in the code")
}

// formulaID reads the ID of a variable that is a working.Formula literal.
func formulaID(spec *ast.ValueSpec) (string, bool) {
	if len(spec.Values) != 1 {
		return "", false
	}
	literal, ok := spec.Values[0].(*ast.CompositeLit)
	if !ok {
		return "", false
	}
	generic, ok := literal.Type.(*ast.IndexListExpr)
	if !ok {
		return "", false
	}
	if sel, ok := generic.X.(*ast.SelectorExpr); !ok || sel.Sel.Name != "Formula" {
		return "", false
	}
	for _, element := range literal.Elts {
		pair, ok := element.(*ast.KeyValueExpr)
		if !ok || pair.Key.(*ast.Ident).Name != "ID" {
			continue
		}
		if value, ok := pair.Value.(*ast.BasicLit); ok {
			id, err := strconv.Unquote(value.Value)
			return id, err == nil
		}
	}
	return "", false
}
