# Stands in for the official Mosquitto image: the same user, folders and programs, from Debian's package.
ARG DEBIAN_IMAGE
FROM ${DEBIAN_IMAGE}
RUN groupadd -g 1883 mosquitto && useradd -u 1883 -g mosquitto -M -s /usr/sbin/nologin mosquitto \
  && apt-get update -qq \
  && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends mosquitto mosquitto-clients \
  && rm -rf /var/lib/apt/lists /var/cache/apt \
  && mkdir -p /mosquitto/config /mosquitto/data /mosquitto/log && chown -R mosquitto:mosquitto /mosquitto
VOLUME ["/mosquitto/data", "/mosquitto/log"]
EXPOSE 1883
CMD ["mosquitto", "-c", "/mosquitto/config/mosquitto.conf"]
