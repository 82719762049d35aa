; In a note an editor may know words such as TODO.

((note) @injection.content
  (#set! injection.language "comment"))
