package brief

import (
	"strings"

	"github.com/goccy/go-yaml/ast"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
)

// A Position is a place in a file. Both count from 1, columns in characters.
type Position struct{ Line, Column int }

// top is where a problem with the file as a whole is shown.
var top = Position{Line: 1, Column: 1}

// Positions says where each field of a brief stands in its file: a number or a word at its value, a block or a list at
// its key. Paths are those of protobuf: "pond.bays[0].depth_m".
type Positions struct {
	file string
	of   map[string]Position
}

// Find is where the field was written.
func (p *Positions) Find(path string) (Position, bool) {
	at, ok := p.of[path]
	return at, ok
}

// nearest is where the field was written or, where it was not, the closest block around it that was.
func (p *Positions) nearest(path string) Position {
	for {
		if at, ok := p.of[path]; ok {
			return at
		}
		path = parent(path)
	}
}

// Explain turns what the engine refused of a request made from this brief into problems at their lines.
func (p *Positions) Explain(violations []*errdetails.BadRequest_FieldViolation) *Problems {
	list := make([]Problem, 0, len(violations))
	for _, v := range violations {
		field := strings.TrimPrefix(strings.TrimPrefix(v.GetField(), "job.brief."), "brief.")
		list = append(list, Problem{Position: p.nearest(field), Field: field, Wrong: v.GetDescription()})
	}
	return newProblems(p.file, list)
}

// parent is the path of what holds the field: "a.b[2]" of "a.b[2].c", "a.b" of "a.b[2]".
func parent(path string) string {
	return path[:max(strings.LastIndexAny(path, ".["), 0)]
}

// join adds a name to a path.
func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// start is where a node begins. The parser places a block at its first colon, and a person looks for its first key.
func start(n ast.Node) Position {
	switch v := n.(type) {
	case *ast.MappingNode:
		if !v.IsFlowStyle && len(v.Values) > 0 {
			return start(v.Values[0].Key)
		}
	case *ast.MappingValueNode:
		return start(v.Key)
	}
	if token := n.GetToken(); token != nil && token.Position != nil {
		return Position{Line: max(token.Position.Line, 1), Column: max(token.Position.Column, 1)}
	}
	return top
}
