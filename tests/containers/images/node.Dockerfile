# Stands in for the official Node image where no registry is reached: Debian, the pinned Node, npm.
ARG DEBIAN_IMAGE
FROM ${DEBIAN_IMAGE}
COPY usr /usr
CMD ["node"]
