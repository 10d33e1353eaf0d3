package testdata_test

import (
	"encoding/json"
	"io/fs"
	"strings"
	"testing"

	"buf.build/go/protovalidate"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/reflect/protoreflect"

	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/testdata"
)

func TestBriefsAreMarkedAsInvented(t *testing.T) {
	for path, text := range briefs(t) {
		assert.True(t, strings.HasPrefix(text, "# Invented for demonstration"), path)
		assert.Contains(t, parse(t, text).GetTitle(), "(invented)", path)
	}
}

// Each brief is a message of the API and keeps the rules written there.
func TestBriefsAreValid(t *testing.T) {
	all := briefs(t)
	require.Len(t, all, 6)
	require.Contains(t, all, testdata.DefaultBrief)
	for path, text := range all {
		assert.NoError(t, protovalidate.Validate(parseJob(t, text)), path)
	}
}

// The six between them ask for everything a brief can.
func TestBriefsAskForEverything(t *testing.T) {
	asked := make(map[protoreflect.Name]bool)
	for _, text := range briefs(t) {
		brief := parse(t, text)
		note := func(m protoreflect.Message) {
			m.Range(func(f protoreflect.FieldDescriptor, _ protoreflect.Value) bool {
				asked[f.Name()] = true
				return true
			})
		}
		note(brief.ProtoReflect())
		note(brief.GetFall().ProtoReflect())
		for _, bay := range brief.GetPond().GetBays() {
			note(bay.ProtoReflect())
		}
	}
	for _, name := range []protoreflect.Name{
		"rectangle", "ellipse", "polygon", "steps", "batter", "stock", "water", "fall", "sheet", "flow_l_per_h", "running", "wishes",
	} {
		assert.True(t, asked[name], name)
	}
}

// The six between them ask for everything a job can, but for the kit, which the engine chooses.
func TestJobsAskForEverything(t *testing.T) {
	asked := make(map[protoreflect.Name]bool)
	var fields protoreflect.FieldDescriptors
	for _, text := range briefs(t) {
		m := parseJob(t, text).ProtoReflect()
		fields = m.Descriptor().Fields()
		m.Range(func(f protoreflect.FieldDescriptor, _ protoreflect.Value) bool {
			asked[f.Name()] = true
			return true
		})
	}
	for i := range fields.Len() {
		if name := fields.Get(i).Name(); name != "kit" {
			assert.True(t, asked[name], name)
		}
	}
}

func briefs(t *testing.T) map[string]string {
	t.Helper()
	paths, err := fs.Glob(testdata.Briefs, "briefs/*.yaml")
	require.NoError(t, err)
	all := make(map[string]string)
	for _, path := range paths {
		text, err := testdata.Briefs.ReadFile(path)
		require.NoError(t, err)
		all[path] = string(text)
	}
	return all
}

// parse reads the brief of a file.
func parse(t *testing.T, text string) *pondwrightv1.Brief {
	t.Helper()
	return parseJob(t, text).GetBrief()
}

// parseJob reads a file by way of the API's own JSON form, which refuses unknown fields: the job stands in a block of its own, and what is
// left is the brief.
func parseJob(t *testing.T, text string) *pondwrightv1.JobBrief {
	t.Helper()
	var tree map[string]any
	require.NoError(t, yaml.Unmarshal([]byte(text), &tree))
	job, _ := tree["job"].(map[string]any)
	require.NotNil(t, job, "every demo brief is one of a whole job")
	delete(tree, "job")
	require.NotContains(t, job, "brief")
	job["brief"] = tree
	made := new(pondwrightv1.JobBrief)
	fullWords(job, made.ProtoReflect().Descriptor())
	form, err := json.Marshal(job)
	require.NoError(t, err)
	require.NoError(t, protojson.Unmarshal(form, made))
	return made
}

// fullWords makes SPECIES_KOI of koi wherever the message has an enum.
func fullWords(tree map[string]any, m protoreflect.MessageDescriptor) {
	for name, value := range tree {
		field := m.Fields().ByName(protoreflect.Name(name))
		if field == nil {
			continue // left for the JSON reader to refuse
		}
		if word, ok := value.(string); ok && field.Enum() != nil {
			prefix := strings.TrimSuffix(string(field.Enum().Values().Get(0).Name()), "UNSPECIFIED")
			tree[name] = prefix + strings.ToUpper(word)
		}
		for _, part := range parts(value) {
			fullWords(part, field.Message())
		}
	}
}

// parts are the messages in a value: one, those of a list, or none.
func parts(value any) []map[string]any {
	switch v := value.(type) {
	case map[string]any:
		return []map[string]any{v}
	case []any:
		var all []map[string]any
		for _, element := range v {
			all = append(all, parts(element)...)
		}
		return all
	}
	return nil
}
