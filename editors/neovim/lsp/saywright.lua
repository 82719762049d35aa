return {
  cmd = { 'saywright', 'serve' },
  filetypes = { 'say' },
  root_markers = { 'saywright.toml', '.git' },
}
