//go:build !unix

package engine_test

// misbehaves does nothing: the plugins that go wrong do so by means of Unix.
func misbehaves([]string) bool { return false }
