package config

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"github.com/alecthomas/kong"
	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
)

// mostBytes is far above any file of settings.
const mostBytes = 1 << 20

// A File is a file of settings that was read. It gives kong the plain settings; Clients and Catalogues it holds itself.
type File struct {
	Settings
	folder string
	values map[string]string // by flag
}

// Read reads a file of settings. Its error names every key that is not known and every value that cannot be, by line and
// column.
func Read(path string) (*File, error) {
	text, err := readBounded(path)
	if err != nil {
		return nil, fmt.Errorf("settings: %w", err)
	}
	folder, err := filepath.Abs(filepath.Dir(path))
	if err != nil {
		return nil, fmt.Errorf("settings: %w", err)
	}
	f := &File{folder: folder, values: map[string]string{}}
	if err := decode(text, &f.Settings, func(key string, node ast.ScalarNode) { f.values[key] = fmt.Sprint(node.GetValue()) }); err != nil {
		return nil, within(path, err)
	}
	f.ClientsFile = f.rooted(f.ClientsFile)
	for i := range f.Catalogues {
		c := &f.Catalogues[i]
		c.From, c.Program = f.rooted(c.From), f.rooted(c.Program)
		for j, w := range c.Watch {
			c.Watch[j] = f.rooted(w)
		}
	}
	return f, nil
}

// ReadClients reads a file with nothing but clients.
func ReadClients(path string) ([]Client, error) {
	text, err := readBounded(path)
	if err != nil {
		return nil, fmt.Errorf("clients: %w", err)
	}
	var held struct {
		Clients []Client `yaml:"clients"`
	}
	if err := decode(text, &held, func(string, ast.ScalarNode) {}); err != nil {
		return nil, within(path, err)
	}
	return held.Clients, CheckClients(held.Clients)
}

func readBounded(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, &fs.PathError{Op: "read", Path: path, Err: errors.New("is not a file")}
	case info.Size() > mostBytes:
		return nil, &fs.PathError{Op: "read", Path: path, Err: fmt.Errorf("is larger than %d bytes", mostBytes)}
	}
	return os.ReadFile(path)
}

func within(path string, err error) error {
	var faults []error
	for line := range strings.SplitSeq(err.Error(), "\n") {
		faults = append(faults, fmt.Errorf("%s:%s", path, line))
	}
	return errors.Join(faults...)
}

// decode reads YAML into a struct. Each plain value is also handed to plain, under the name of its flag.
func decode(text []byte, into any, plain func(flag string, node ast.ScalarNode)) error {
	file, err := parser.ParseBytes(text, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		return tell(err)
	}
	var root ast.Node
	for _, doc := range file.Docs {
		switch {
		case doc.Body == nil:
		case root != nil:
			return fmt.Errorf("%s: a second document begins here; put everything into the first", place(doc.Body))
		default:
			root = doc.Body
		}
	}
	if root == nil {
		return nil
	}
	w := walker{plain: plain}
	w.walk(root, reflect.TypeOf(into).Elem(), "")
	if len(w.faults) > 0 {
		return errors.Join(w.faults...)
	}
	if err := yaml.NodeToValue(root, into); err != nil {
		return tell(err)
	}
	return nil
}

// tell gives an error of the parser in one line with its place in front.
func tell(err error) error {
	var at yaml.Error
	if errors.As(err, &at) && at.GetToken() != nil {
		p := at.GetToken().Position
		return fmt.Errorf("%d:%d: %s", p.Line, p.Column, strings.ReplaceAll(at.GetMessage(), "\n", " "))
	}
	return fmt.Errorf("1:1: %s", strings.ReplaceAll(err.Error(), "\n", " "))
}

func place(n ast.Node) string {
	p := n.GetToken().Position
	return fmt.Sprintf("%d:%d", p.Line, p.Column)
}

// A walker holds a tree to the type it is to be read into.
type walker struct {
	plain  func(flag string, node ast.ScalarNode)
	faults []error
}

func (w *walker) walk(n ast.Node, t reflect.Type, flag string) {
	if _, empty := n.(*ast.NullNode); empty {
		return
	}
	switch {
	case t.Kind() == reflect.Struct:
		w.mapping(n, t, flag)
	case t.Kind() == reflect.Slice:
		list, ok := n.(*ast.SequenceNode)
		if !ok {
			w.fault(n, "a list belongs here: begin each entry with a dash")
			return
		}
		for _, entry := range list.Values {
			w.walk(entry, t.Elem(), flag)
		}
	default:
		value, ok := n.(ast.ScalarNode)
		if !ok {
			w.fault(n, "one value belongs here, without anything below it")
			return
		}
		w.plain(flag, value)
	}
}

func (w *walker) mapping(n ast.Node, t reflect.Type, flag string) {
	block, ok := n.(ast.MapNode)
	if !ok {
		w.fault(n, "settings belong here: "+strings.Join(keysOf(t), ", "))
		return
	}
	seen := map[string]bool{}
	for each := block.MapRange(); each.Next(); {
		key := each.Key().String()
		i := slices.Index(keysOf(t), key)
		switch {
		case i < 0:
			w.fault(each.Key(), fmt.Sprintf("%q is not a setting here; there are %s", key, strings.Join(keysOf(t), ", ")))
		case seen[key]:
			w.fault(each.Key(), fmt.Sprintf("%q is set a second time", key))
		default:
			w.walk(each.Value(), t.Field(i).Type, joined(flag, key))
		}
		seen[key] = true
	}
}

func (w *walker) fault(n ast.Node, text string) {
	w.faults = append(w.faults, fmt.Errorf("%s: %s", place(n), text))
}

// keysOf lists the keys of a struct by the place of their fields.
func keysOf(t reflect.Type) []string {
	keys := make([]string, t.NumField())
	for i := range keys {
		keys[i], _, _ = strings.Cut(t.Field(i).Tag.Get("yaml"), ",")
	}
	return keys
}

// joined is the name of the flag of a key.
func joined(flag, key string) string {
	return strings.Trim(flag+"-"+strings.ReplaceAll(key, "_", "-"), "-")
}

func (f *File) rooted(p Path) Path {
	if p == "" || filepath.IsAbs(string(p)) {
		return p
	}
	return Path(filepath.Join(f.folder, string(p)))
}

// Validate implements kong.Resolver.
func (f *File) Validate(*kong.Application) error { return nil }

// Resolve implements kong.Resolver. It steps back where the environment has spoken, which kong would have it overrule.
func (f *File) Resolve(_ *kong.Context, _ *kong.Path, flag *kong.Flag) (any, error) {
	for _, name := range flag.Envs {
		if _, set := os.LookupEnv(name); set {
			return nil, nil
		}
	}
	text, found := f.values[flag.Name]
	switch {
	case !found:
		return nil, nil
	case flag.Target.Type() == reflect.TypeFor[Path]():
		return string(f.rooted(Path(text))), nil
	default:
		return text, nil
	}
}
