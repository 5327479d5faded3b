// The Mattermost server that the tests run. A module of its own, so that none of the
// server's requirements become the program's.
module fettle/testdata/mattermost/server

go 1.26

require (
	github.com/mattermost/mattermost/server/public v0.1.21
	github.com/mattermost/mattermost/server/v8 v8.0.0-20251014075701-833e0125320d
)
