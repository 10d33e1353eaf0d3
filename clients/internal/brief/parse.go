package brief

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// Bounds that no brief comes near. They keep a wrong file from costing the parser minutes, or its stack.
const (
	longestText = 1 << 20
	deepestNest = 50
	mostEntries = 25_000
)

// parse gives the one block the file holds, or nil where there is none to read.
func (r *reader) parse(text []byte) ast.Node {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	if !r.checkText(text) {
		return nil
	}
	tokens := lexer.Tokenize(string(text))
	if !r.checkShape(tokens) {
		return nil
	}
	file, err := parseTokens(tokens)
	if err != nil {
		r.sayUnreadable(err)
		return nil
	}
	return r.onlyDocument(file)
}

// checkText refuses what is no text, at the first place where it is none.
func (r *reader) checkText(text []byte) bool {
	if len(text) > longestText {
		r.say(top, "", fmt.Sprintf("the file holds %d bytes; a brief is never longer than %d", len(text), longestText), "")
		return false
	}
	at := top
	for rest := text; len(rest) > 0; {
		c, size := utf8.DecodeRune(rest)
		switch {
		case c == utf8.RuneError && size == 1:
			r.say(at, "", "this is not text in UTF-8", "save the file as UTF-8")
			return false
		case unicode.IsControl(c) && !strings.ContainsRune("\t\n\r", c):
			r.say(at, "", fmt.Sprintf("a control character (%U) stands here", c), "delete it")
			return false
		}
		at.Column++
		if c == '\n' {
			at = Position{at.Line + 1, 1}
		}
		rest = rest[size:]
	}
	return true
}

// checkShape refuses a file nested deeper, or with more entries, than any brief.
func (r *reader) checkShape(tokens token.Tokens) bool {
	var flow, run, line, entries int
	for _, t := range tokens {
		if t.Position.Line != line {
			run, line = 0, t.Position.Line
		}
		switch t.Type {
		case token.SequenceStartType, token.MappingStartType:
			flow++
		case token.SequenceEndType, token.MappingEndType:
			flow--
		case token.SequenceEntryType, token.MappingKeyType, token.AnchorType, token.TagType:
			run++
		case token.MappingValueType:
			entries++
		}
		at := Position{t.Position.Line, t.Position.Column}
		if max(flow, run) > deepestNest {
			r.say(at, "", "the file is nested deeper than any brief", "")
			return false
		}
		if entries > mostEntries {
			r.say(at, "", "the file holds more entries than any brief", "")
			return false
		}
	}
	return true
}

// parseTokens turns a panic of the parser into an error: a file must not be able to stop the program.
func parseTokens(tokens token.Tokens) (file *ast.File, err error) {
	defer func() {
		if recover() != nil {
			err = errors.New("the parser gave up")
		}
	}()
	return parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
}

func (r *reader) sayUnreadable(err error) {
	at, why := top, err.Error()
	var located yaml.Error
	if errors.As(err, &located) {
		why = located.GetMessage()
		if t := located.GetToken(); t != nil && t.Position != nil {
			at = Position{max(t.Position.Line, 1), max(t.Position.Column, 1)}
		}
	}
	r.say(at, "", "this cannot be read as YAML or JSON: "+printable(why),
		"look here for a colon, a quote or a bracket too many or too few, and for lines indented by tabs or unevenly")
}

// onlyDocument is the body of the file's one document.
func (r *reader) onlyDocument(file *ast.File) ast.Node {
	var root ast.Node
	for _, doc := range file.Docs {
		switch body := doc.Body; {
		case body == nil:
		case body.Type() == ast.DirectiveType:
			r.say(start(body), "", "directives are not read", "delete this line")
		case root != nil:
			r.say(start(body), "", "a second document starts here", "keep one brief in one file")
			return root
		default:
			root = body
		}
	}
	if root == nil && len(r.problems) == 0 {
		r.say(top, "", "the file is empty", "describe a pond in it")
	}
	return root
}

// printable is the text with whatever is not printed replaced by its escape.
func printable(text string) string {
	quoted := strconv.Quote(text)
	return strings.ReplaceAll(quoted[1:len(quoted)-1], `\"`, `"`)
}
