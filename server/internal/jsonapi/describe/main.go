// Command describe writes the OpenAPI document of the API. The Swagger generator of grpc-gateway, which is stable, makes paths and
// types from the proto and its comments; kin-openapi turns that into OpenAPI 3; and the limits that the proto sets on each field,
// which neither knows, are put in here. Run by go generate ./proto.
package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"github.com/getkin/kin-openapi/openapi2"
	"github.com/getkin/kin-openapi/openapi2conv"
	"github.com/getkin/kin-openapi/openapi3"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "describe:", err)
		os.Exit(1)
	}
}

const (
	template = "proto/buf.gen.openapi.yaml"
	target   = "server/internal/jsonapi/openapi.json"
)

func run() error {
	swagger, err := generated()
	if err != nil {
		return err
	}
	var old openapi2.T
	if err := json.Unmarshal(swagger, &old); err != nil {
		return fmt.Errorf("read what was generated: %w", err)
	}
	document, err := openapi2conv.ToV3(&old)
	if err != nil {
		return fmt.Errorf("convert: %w", err)
	}
	introduce(document)
	if err := leaveOutStreams(document); err != nil {
		return err
	}
	if err := bound(document); err != nil {
		return err
	}
	if err := document.Validate(openapi3.NewLoader().Context); err != nil {
		return fmt.Errorf("the document is not valid: %w", err)
	}
	return write(document)
}

// generated is the Swagger document, made in a folder that does not last.
func generated() ([]byte, error) {
	folder, err := os.MkdirTemp("", "describe")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	buf := exec.Command("go", "tool", "-modfile=.tools/buf.mod", "buf", "generate", "--template", template, "-o", folder)
	buf.Stderr = os.Stderr
	if err := buf.Run(); err != nil {
		return nil, fmt.Errorf("buf generate: %w", err)
	}
	return os.ReadFile(filepath.Join(folder, "api.swagger.json"))
}

func introduce(d *openapi3.T) {
	d.Info = &openapi3.Info{
		Title: "Pondwright", Version: "v1",
		Description: "Calculations for garden fish ponds. Every call is a POST with a JSON object; a field that the request does not have is refused. " +
			"Fields keep the names of the proto, in which the unit stands. 64-bit counts are written as text, as protobuf's JSON asks. " +
			"An error has a code, a message and details that list each field to change. " +
			"Answers are estimates: measure on site before buying or digging; local codes come first, and mains near water is work for a licensed electrician.",
	}
	d.Servers = openapi3.Servers{{URL: "/", Description: "the engine that serves this document"}}
}

// leaveOutStreams takes out the calls that are left to gRPC.
func leaveOutStreams(d *openapi3.T) error {
	for path := range d.Paths.Map() {
		found, err := protoregistry.GlobalFiles.FindDescriptorByName(protoreflect.FullName(strings.ReplaceAll(path[1:], "/", ".")))
		if err != nil {
			return fmt.Errorf("path %s is of no call: %w", path, err)
		}
		if m, ok := found.(protoreflect.MethodDescriptor); !ok || m.IsStreamingClient() || m.IsStreamingServer() {
			d.Paths.Delete(path)
		}
	}
	return nil
}

func write(d *openapi3.T) error {
	text, err := json.Marshal(d)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	if err := json.Indent(&out, text, "", " "); err != nil {
		return err
	}
	out.WriteByte('\n')
	return os.WriteFile(target, out.Bytes(), 0o644)
}
