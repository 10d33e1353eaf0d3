// Package proto is the contract: the public API in pondwright/v1, the vocabulary of equipment in pondwright/equipment/v1
// and the catalogue plugin's side in pondwright/catalogue/v1, each with its generated Go beside it.
//
// third_party/buf/validate/validate.proto is published with the Go module github.com/bufbuild/protovalidate v1.2.2, under
// the licence beside it. A test compares it with the one that is linked in.
package proto

//go:generate go -C .. tool -modfile=.tools/buf.mod buf generate --template proto/buf.gen.yaml
//go:generate go -C .. tool -modfile=.tools/buf.mod buf generate --template proto/buf.gen.http.yaml
//go:generate go -C .. run ./server/internal/jsonapi/describe
