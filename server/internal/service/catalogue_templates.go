package service

import (
	"context"
	"fmt"
	"maps"
	"path/filepath"
	"slices"

	csvcatalogue "example.com/pondwright/plugins/csv"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// mediaTypes are those of the templates, by the ending of their names.
var mediaTypes = map[string]string{
	".csv":  "text/csv; charset=utf-8",
	".md":   "text/markdown; charset=utf-8",
	".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}

// GetTemplates makes the files anew each time, from the contract that is linked in: those of one form, and the guide.
func (s catalogues) GetTemplates(_ context.Context, req *pb.GetTemplatesRequest) (*pb.GetTemplatesResponse, error) {
	templates, err := csvcatalogue.Templates()
	if err != nil {
		return nil, fmt.Errorf("templates: %w", err)
	}
	workbook := req.GetForm() == pb.TemplateForm_TEMPLATE_FORM_WORKBOOK
	resp := &pb.GetTemplatesResponse{}
	for _, name := range slices.Sorted(maps.Keys(templates)) {
		if name != csvcatalogue.GuideFile && workbook != (name == csvcatalogue.WorkbookFile) {
			continue
		}
		resp.Files = append(resp.Files, &pb.TemplateFile{Name: name, MediaType: mediaTypes[filepath.Ext(name)], Content: templates[name]})
	}
	return resp, nil
}
