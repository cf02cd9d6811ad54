"""What answers a browser: request handlers, languages, the list of pages, scripts."""
