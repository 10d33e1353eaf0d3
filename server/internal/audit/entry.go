// Package audit keeps a log of what was asked and answered that can only be added to: each entry holds the hash of the one
// before, so that nothing can be changed, taken out or put in without all that follows giving it away. What was asked can be
// asked again years later.
package audit

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"time"
)

// An Entry is one call, as one line of JSON.
type Entry struct {
	Number     uint64            `json:"number"` // from 1, without a gap
	Time       time.Time         `json:"time"`
	Caller     string            `json:"caller"`
	Method     string            `json:"method"`
	Code       string            `json:"code"`              // of the status, as gRPC writes it
	Message    string            `json:"message,omitempty"` // of a call that failed
	Version    string            `json:"engine_version"`
	MethodSet  string            `json:"method_set"`
	Catalogues map[string]string `json:"catalogues,omitempty"` // revision by name
	Digest     string            `json:"request_digest"`
	Request    []byte            `json:"request"`          // in protobuf's deterministic encoding
	Answered   string            `json:"answer_digest"`    // of the answer without its provenance; empty for a call that failed
	Answer     []byte            `json:"answer,omitempty"` // where whole answers are kept
	Before     string            `json:"before"`           // hash of the entry before; empty for the first
	Hash       string            `json:"hash"`             // of this line without its hash
}

// sealed is the entry as a line, with its hash.
func (e Entry) sealed() ([]byte, string, error) {
	e.Hash = ""
	bare, err := json.Marshal(e)
	if err != nil {
		return nil, "", fmt.Errorf("audit entry %d: %w", e.Number, err)
	}
	sum := sha256.Sum256(bare)
	e.Hash = hex.EncodeToString(sum[:])
	line, err := json.Marshal(e)
	return append(line, '\n'), e.Hash, err
}

// open reads a line and holds it to its own hash.
func open(line []byte) (Entry, error) {
	var e Entry
	in := json.NewDecoder(bytes.NewReader(line))
	in.DisallowUnknownFields()
	if err := in.Decode(&e); err != nil {
		return e, fmt.Errorf("is no entry: %w", err)
	}
	again, hash, err := e.sealed()
	switch {
	case err != nil:
		return e, err
	case hash != e.Hash:
		return e, errors.New("does not have the hash it says: it was changed")
	case !bytes.Equal(again, append(bytes.TrimSuffix(line, []byte("\n")), '\n')):
		return e, errors.New("is not written as entries are: it was changed")
	}
	return e, nil
}
