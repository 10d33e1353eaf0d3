package service

import (
	"context"
	"maps"
	"slices"

	csvcatalogue "example.com/pondwright/plugins/csv"
	pb "example.com/pondwright/proto/pondwright/v1"
)

const (
	mediaCSV      = "text/csv; charset=utf-8"
	mediaMarkdown = "text/markdown; charset=utf-8"
	mediaWorkbook = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
)

// GetTemplates makes the files anew each time, from the contract that is linked in.
func (s catalogues) GetTemplates(_ context.Context, req *pb.GetTemplatesRequest) (*pb.GetTemplatesResponse, error) {
	resp := &pb.GetTemplatesResponse{}
	add := func(name, media string, content []byte) {
		resp.Files = append(resp.Files, &pb.TemplateFile{Name: name, MediaType: media, Content: content})
	}
	add(csvcatalogue.GuideFile, mediaMarkdown, []byte(csvcatalogue.Guide()))
	templates := csvcatalogue.Templates()
	for _, name := range slices.Sorted(maps.Keys(templates)) {
		add(name, mediaCSV, templates[name])
	}
	return resp, nil
}
