package config

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"github.com/alecthomas/kong"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// One name in three forms: each plain key of the file is a flag and a variable.
func TestEachPlainSettingIsAFlagAndAVariableToo(t *testing.T) {
	var s struct{ Settings }
	parser, err := kong.New(&s, kong.DefaultEnvars("PONDWRIGHT"))
	require.NoError(t, err)
	flags := map[string]*kong.Flag{}
	for _, f := range parser.Model.Flags {
		flags[f.Name] = f
	}
	var walk func(reflect.Type, string)
	walk = func(of reflect.Type, under string) {
		for i, key := range keysOf(of) {
			name := joined(under, key)
			switch f := of.Field(i); f.Type.Kind() {
			case reflect.Slice: // for the file alone
			case reflect.Struct:
				walk(f.Type, name)
			default:
				if assert.Contains(t, flags, name) {
					assert.Len(t, flags[name].Envs, 1, name)
					assert.NotEmpty(t, flags[name].Help, name)
				}
			}
		}
	}
	walk(reflect.TypeFor[Settings](), "")
}

func TestBytes(t *testing.T) {
	for text, want := range map[string]Bytes{"0": 0, "4096": 4096, "4KiB": 4096, "3 MiB": 3 << 20, "1GiB": 1 << 30} {
		var b Bytes
		require.NoError(t, b.UnmarshalText([]byte(text)))
		assert.Equal(t, want, b)
	}
	for _, text := range []string{"", "-1", "4MB", "1.5MiB", "9223372036854775807GiB", "MiB"} {
		assert.Error(t, new(Bytes).UnmarshalText([]byte(text)), text)
	}
}

func TestLoopback(t *testing.T) {
	for address, want := range map[string]bool{
		"127.0.0.1:1": true, "127.8.8.8:1": true, "[::1]:1": true, "localhost:1": true,
		":1": false, "0.0.0.0:1": false, "[::]:1": false, "192.0.2.1:1": false, "pond.example.com:1": false,
	} {
		got, err := Loopback(address)
		require.NoError(t, err, address)
		assert.Equal(t, want, got, address)
	}
	_, err := Loopback("127.0.0.1")
	assert.Error(t, err)
}

// Whatever a file holds, reading it ends with settings or with a fault that has a place.
func FuzzRead(f *testing.F) {
	f.Add("listen: 127.0.0.1:1\nlimits: {calls: 3}\ncatalogues:\n  - name: shop\n    from: .\n    memory: 64MiB\n    start_timeout: 5s\n")
	f.Add("a: &x [1]\nb: *x\n")
	f.Add("clients: [{name: a, token_sha256: '', roles: [calculate]}]")
	f.Add("? [a]\n: b\n<<: {drain: 1s}")
	f.Fuzz(func(t *testing.T, text string) {
		path := filepath.Join(t.TempDir(), "settings.yaml")
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		file, err := Read(path)
		if err != nil {
			assert.Regexp(t, `settings\.yaml:\d+:\d+: `, err.Error())
			return
		}
		_ = file.Check()
	})
}
