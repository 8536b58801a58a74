# Stands in for the official PostgreSQL image: the same user, folder and variables, from Debian's package.
ARG DEBIAN_IMAGE
FROM ${DEBIAN_IMAGE}
RUN groupadd -g 999 postgres && useradd -u 999 -g postgres -d /var/lib/postgresql -s /bin/bash postgres \
  && mkdir -p /etc/postgresql-common && echo 'create_main_cluster = false' >/etc/postgresql-common/createcluster.conf \
  && apt-get update -qq \
  && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends postgresql \
  && rm -rf /var/lib/apt/lists /var/cache/apt \
  && mkdir -p /var/lib/postgresql/data && chown postgres:postgres /var/lib/postgresql/data \
  && chmod 1777 /var/lib/postgresql/data /var/run/postgresql
COPY postgresEntry.sh /usr/local/bin/docker-entrypoint.sh
ENV PGDATA=/var/lib/postgresql/data
USER 999:999
VOLUME /var/lib/postgresql/data
EXPOSE 5432
ENTRYPOINT ["docker-entrypoint.sh"]
CMD ["postgres"]
