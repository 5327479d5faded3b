module fettle

go 1.26

require (
	github.com/mattermost/mattermost/server/public v0.1.21 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
