# Stands in for the official InfluxDB 1.x image: the same folder and port, from Debian's package (1.6).
ARG DEBIAN_IMAGE
FROM ${DEBIAN_IMAGE}
RUN apt-get update -qq \
  && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends influxdb influxdb-client curl \
  && rm -rf /var/lib/apt/lists /var/cache/apt /var/lib/influxdb/* \
  && chown root:root /var/lib/influxdb
ENV INFLUXDB_META_DIR=/var/lib/influxdb/meta INFLUXDB_DATA_DIR=/var/lib/influxdb/data INFLUXDB_DATA_WAL_DIR=/var/lib/influxdb/wal
ENV INFLUXDB_REPORTING_DISABLED=true
VOLUME /var/lib/influxdb
EXPOSE 8086
CMD ["influxd"]
