#!/usr/bin/env bash
# Builds the container image without a daemon, as an OCI layout in the folder given, and says its size and digest.
#   server/deploy/image.sh FOLDER [REFERENCE]
# Where nothing is built yet it takes some minutes. With a reference, such as registry.example.com/pondwright:2026-11, it is also pushed there.
#
# The base is made here out of nothing: a user, the system's certificate authorities and /tmp. A merchant's plugin that is a static
# program is mounted beside it; one that needs an interpreter needs an image of its own, derived from one that has it.
set -euo pipefail
cd "$(dirname "$0")/../.."
folder=$(realpath -m "${1:?name a folder for the image}")
reference=${2:-}
platform=${PONDWRIGHT_PLATFORM:-linux/amd64}
port=${PONDWRIGHT_REGISTRY_PORT:-5055} # of a registry on loopback that lives as long as this script

work=$(mktemp -d)
registry=
trap '[ -z "$registry" ] || kill "$registry"; rm -rf "$work"' EXIT

GOBIN=$work/bin go install github.com/google/ko@v0.19.1
GOBIN=$work/bin go install github.com/google/go-containerregistry/cmd/crane@v0.22.1
PATH=$work/bin:$PATH

mkdir -p "$work"/root/etc/ssl/certs "$work"/root/tmp
chmod 1777 "$work"/root/tmp
echo 'pondwright:x:65532:65532::/:/sbin/nologin' >"$work"/root/etc/passwd
echo 'pondwright:x:65532:' >"$work"/root/etc/group
cp /etc/ssl/certs/ca-certificates.crt "$work"/root/etc/ssl/certs/
tar --sort=name --mtime=@0 --owner=0 --group=0 --numeric-owner -C "$work"/root -cf "$work"/base.tar .

crane registry serve --address "127.0.0.1:$port" >"$work"/registry.log 2>&1 &
registry=$!
base=127.0.0.1:$port/base:latest
for _ in $(seq 50); do
  crane catalog --insecure "127.0.0.1:$port" >/dev/null 2>&1 && break
  sleep 0.1
done
crane append --insecure --oci-empty-base -f "$work"/base.tar -t "$base" >/dev/null
crane mutate --insecure "$base" --user 65532:65532 --set-platform "$platform" -t "$base" >/dev/null

# ko takes its settings from a folder, and ours stay out of the top level.
cat >"$work"/.ko.yaml <<KO
defaultBaseImage: $base
builds:
  - id: server
    main: ./server
    env: [CGO_ENABLED=0]
    flags: [-trimpath]
    ldflags: [-s, -w]
KO
export KO_CONFIG_PATH=$work SOURCE_DATE_EPOCH=0 KO_DOCKER_REPO=127.0.0.1:$port/pondwright
rm -rf "$folder"
ko build --insecure-registry --bare --sbom=none --platform="$platform" --push=false --oci-layout-path="$folder" ./server
du -sh "$folder"
[ -z "$reference" ] || crane push "$folder" "$reference"
