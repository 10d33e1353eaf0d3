package intercept

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"google.golang.org/protobuf/proto"
)

// Digest is the SHA-256 of a message in protobuf's deterministic encoding, in hexadecimal.
func Digest(m proto.Message) (string, error) {
	bytes, err := proto.MarshalOptions{Deterministic: true}.Marshal(m)
	if err != nil {
		return "", fmt.Errorf("digest %s: %w", m.ProtoReflect().Descriptor().FullName(), err)
	}
	sum := sha256.Sum256(bytes)
	return hex.EncodeToString(sum[:]), nil
}
