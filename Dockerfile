FROM golang:1.26-bookworm AS build
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
# SQLite is C, so the program is linked against the C library of the image that it runs in.
RUN CGO_ENABLED=1 go build -buildvcs=false -trimpath -ldflags="-s -w" -o /fettle .

FROM debian:bookworm-slim
# Certificates for a chat server on https, zones for FETTLE_TIMEZONE.
RUN apt-get update \
 && apt-get install -y --no-install-recommends ca-certificates tzdata \
 && rm -rf /var/lib/apt/lists/*
RUN useradd --uid 10001 --no-create-home --shell /usr/sbin/nologin fettle \
 && install -d -o fettle -g fettle -m 0700 /data
COPY --from=build /fettle /usr/local/bin/fettle
USER fettle
ENV FETTLE_DB=/data/fettle.db
# Inside a container, loopback reaches nobody. It is open only where the port is published: -p 8040:8040
ENV FETTLE_LISTEN=0.0.0.0:8040
EXPOSE 8040
VOLUME /data

# Well is a bot that holds the lock beside its database, and a database of which a copy can be
# made and read through. The copy is taken away again.
HEALTHCHECK --interval=5m --timeout=60s --start-period=30s --retries=3 \
  CMD grep -q ":$(stat -c %i "$FETTLE_DB.lock") " /proc/locks \
   && fettle backup /tmp/health.db >/dev/null \
   && rm /tmp/health.db

ENTRYPOINT ["fettle"]
CMD ["serve"]
