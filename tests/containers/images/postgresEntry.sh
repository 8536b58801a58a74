#!/bin/sh
# First start: makes the cluster, its user and its database, as the official image does. Then hands over to the server.
set -eu
PATH="$(ls -d /usr/lib/postgresql/*/bin | tail -n 1):$PATH"
if [ ! -s "$PGDATA/PG_VERSION" ]; then
  password="${POSTGRES_PASSWORD_FILE:+$(cat "$POSTGRES_PASSWORD_FILE")}"
  password="${password:-${POSTGRES_PASSWORD:?set POSTGRES_PASSWORD or POSTGRES_PASSWORD_FILE}}"
  printf '%s\n' "$password" >/tmp/password
  initdb -D "$PGDATA" -U "${POSTGRES_USER:-postgres}" --pwfile=/tmp/password --encoding=UTF8 --auth-host=scram-sha-256 --auth-local=trust
  rm /tmp/password
  echo 'host all all all scram-sha-256' >>"$PGDATA/pg_hba.conf"
  pg_ctl -D "$PGDATA" -o "-c listen_addresses='' -k /tmp" -w start
  if [ "${POSTGRES_DB:-postgres}" != postgres ]; then createdb -h /tmp -U "${POSTGRES_USER:-postgres}" "$POSTGRES_DB"; fi
  pg_ctl -D "$PGDATA" -m fast -w stop
fi
exec "$@" -c listen_addresses='*'
