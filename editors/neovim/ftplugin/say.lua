if vim.b.did_ftplugin then
  return
end
vim.b.did_ftplugin = 1

vim.opt_local.wrap = true
vim.opt_local.linebreak = true
vim.opt_local.commentstring = '# %s'
vim.opt_local.comments = 'b:#'

vim.b.undo_ftplugin = 'setlocal wrap< linebreak< commentstring< comments<'
