"""Pictures of the views: as they show, with a caption, to a file or to the clipboard."""
