vim.filetype.add({ extension = { say = 'say' } })
