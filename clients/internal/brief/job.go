package brief

import (
	"strings"

	"github.com/goccy/go-yaml/ast"
	"google.golang.org/protobuf/proto"

	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// jobKey is the block of a file that holds what a whole job asks for beside the brief.
const jobKey = "job"

// takeJob takes the entries of the job out of the file, so that what is left is a brief.
func (r *reader) takeJob(root ast.Node) []*ast.MappingValueNode {
	block, ok := root.(*ast.MappingNode)
	if !ok {
		return nil
	}
	var job, rest []*ast.MappingValueNode
	for _, entry := range block.Values {
		if k, ok := entry.Key.(*ast.StringNode); ok && k.Value == jobKey {
			job = append(job, entry)
		} else {
			rest = append(rest, entry)
		}
	}
	if len(job) > 0 {
		block.Values = rest
	}
	return job
}

// job reads the block of the job into a message that has its brief already.
func (r *reader) job(entries []*ast.MappingValueNode, into *pondwrightv1.JobBrief) {
	if len(entries) == 0 {
		return
	}
	r.root, r.under = into.ProtoReflect().Descriptor(), jobKey
	r.at.of[jobKey] = start(entries[0].Key)
	for _, again := range entries[1:] {
		r.say(start(again.Key), jobKey, "job is given twice", "keep one of them")
	}
	if r.absent(jobKey, start(entries[0].Key), entries[0].Value) {
		return
	}
	read := &pondwrightv1.JobBrief{}
	r.message(jobKey, entries[0].Value, read.ProtoReflect())
	if at, given := r.at.Find(join(jobKey, "brief")); given {
		r.say(at, join(jobKey, "brief"), "the brief stands at the top of the file and not in the job", "move its fields there")
	}
	read.Brief = into.GetBrief()
	r.rules(read.ProtoReflect())
	proto.Reset(into)
	proto.Merge(into, read)
}

// ofBrief reports whether a path of a job lies in its brief, which has been spoken of already.
func ofBrief(path string) bool { return path == "brief" || strings.HasPrefix(path, "brief.") }

// under is a path from the root on as it is from the top of the file on.
func under(root, path string) string {
	if path == "" {
		return root
	}
	return join(root, path)
}
