"""What a composition is put together from, each part made again only when it has changed."""
