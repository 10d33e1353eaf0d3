package host

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"
)

// Limits that hold where a Plugin sets none.
const (
	DefaultStartTimeout = 10 * time.Second
	DefaultCallTimeout  = 30 * time.Second
	DefaultMaxItems     = 50_000
	DefaultMaxMemory    = 1 << 30
	// MaxCatalogueBytes bounds what one catalogue may take up, as counted on the wire. Ten thousand items are about 8 MB.
	MaxCatalogueBytes = 128 << 20
)

// Plugin says how to start one catalogue plugin and how far it is trusted.
type Plugin struct {
	Name string   // what the engine calls the catalogue; unique among plugins
	Path string   // absolute path of the executable
	Args []string // its arguments

	// Env lists what the plugin may see of the host's environment: the name of a variable, or NAME=value to set one. PATH,
	// HOME, LANG, TMPDIR and TZ are always passed on; nothing else is.
	Env []string

	// SHA256 pins the executable by its checksum in hexadecimal. Empty means not pinned, and is warned about. Of a script
	// that is started through an interpreter only the interpreter is pinned. The file is checked and then executed, so its
	// folder must not be writable by anyone who is not trusted.
	SHA256 string

	// PlainSocket turns mutual TLS off for a plugin that cannot do it. Its socket lies in a folder of the host's own user.
	PlainSocket bool

	StartTimeout time.Duration // until it has shaken hands
	CallTimeout  time.Duration // until it has described itself, and again until it has sent every item
	MaxItems     int           // more than this and the catalogue is refused
	MaxMemory    int64         // bytes of data the process may have before it is refused more; only Linux can do this
}

// withDefaults fills in the limits that are not set.
func (p Plugin) withDefaults() Plugin {
	if p.StartTimeout <= 0 {
		p.StartTimeout = DefaultStartTimeout
	}
	if p.CallTimeout <= 0 {
		p.CallTimeout = DefaultCallTimeout
	}
	if p.MaxItems <= 0 {
		p.MaxItems = DefaultMaxItems
	}
	if p.MaxMemory <= 0 {
		p.MaxMemory = DefaultMaxMemory
	}
	return p
}

// check refuses a configuration that cannot be what was meant.
func (p Plugin) check() error {
	switch {
	case p.Name == "":
		return errors.New("has no name")
	case !filepath.IsAbs(p.Path):
		return fmt.Errorf("has path %q, which is not absolute", p.Path)
	}
	return nil
}

// environment is all the plugin gets to see of the host's environment.
func (p Plugin) environment() []string {
	allowed := []string{"PATH", "HOME", "LANG", "TMPDIR", "TZ"}
	if runtime.GOOS == "windows" {
		allowed = append(allowed, "SYSTEMROOT", "TEMP", "TMP")
	}
	var env []string
	for _, entry := range append(allowed, p.Env...) {
		if strings.Contains(entry, "=") {
			env = append(env, entry)
		} else if value, ok := os.LookupEnv(entry); ok {
			env = append(env, entry+"="+value)
		}
	}
	return env
}

// Self is the path that starts the running program again: the very file that is running, even where another has been put in
// its place since, as happens in an upgrade.
func Self() (string, error) {
	if runtime.GOOS == "linux" {
		return "/proc/self/exe", nil
	}
	return os.Executable()
}
