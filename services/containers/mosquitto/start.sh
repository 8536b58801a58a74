#!/bin/sh
# Makes the broker's file of passwords from the secrets, in memory, and hands over to the broker.
set -eu
umask 077
{
  printf 'tilthwatch:%s\n' "$(cat /run/secrets/broker-password)"
  printf 'probes:%s\n' "$(cat /run/secrets/probes-password)"
} >/tmp/passwords
mosquitto_passwd -U /tmp/passwords
exec mosquitto -c /mosquitto/config/mosquitto.conf
