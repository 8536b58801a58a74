#!/bin/sh
# Makes a password for everything the full profile holds together, each in a file of its own: makeSecrets.sh [FOLDER]
# What is there is kept. Only who may enter the folder can read them; containers are handed single files of it.
set -eu
folder=${1:-data/secrets}
mkdir -p "$folder"
chmod 700 "$folder"
make() {
  [ -s "$folder/$1" ] || head -c 24 /dev/urandom | od -An -tx1 | tr -d ' \n' >"$folder/$1"
  chmod 644 "$folder/$1"
}
for name in broker-password probes-password influxdb-password postgres-password; do make "$name"; done
printf 'postgresql://tilth:%s@postgres:5432/tilthwatch' "$(cat "$folder/postgres-password")" >"$folder/postgres-url"
chmod 644 "$folder/postgres-url"
echo "The passwords are in $folder. Probes sign in at the broker as \"probes\" with the one in $folder/probes-password."
