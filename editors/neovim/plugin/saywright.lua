-- Nothing is loaded before the first script is opened.
if vim.g.loaded_saywright then
  return
end
vim.g.loaded_saywright = true

local group = vim.api.nvim_create_augroup('saywright', {})

local function start()
  vim.lsp.enable('saywright')
  local command = require('saywright.command')
  local configured = command.configured()
  if not command.is_found(configured) then
    local said = command.not_found(configured)
      .. '\nInstall Saywright and start Neovim again; :checkhealth saywright says more.'
    vim.notify(said, vim.log.levels.WARN)
  end
end

vim.api.nvim_create_autocmd('FileType', {
  group = group,
  pattern = 'say',
  once = true,
  desc = 'Start Saywright with the first script',
  callback = function()
    if vim.fn.has('nvim-0.11') == 0 then
      vim.notify('Saywright needs Neovim 0.11 or newer: see :version', vim.log.levels.WARN)
    elseif vim.v.vim_did_enter == 1 then
      start()
    else
      -- before that, Neovim would attach to scripts opened from now on, and not to this one
      vim.api.nvim_create_autocmd('VimEnter', { group = group, once = true, callback = start })
    end
  end,
})

local function show_lenses(buffer)
  vim.lsp.codelens.refresh({ bufnr = buffer })
end

vim.api.nvim_create_autocmd('LspAttach', {
  group = group,
  desc = 'Show the running time in scripts',
  callback = function(event)
    local client = vim.lsp.get_client_by_id(event.data.client_id)
    if not client or client.name ~= 'saywright' then
      return
    end
    vim.lsp.inlay_hint.enable(true, { bufnr = event.buf })
    local lenses = vim.api.nvim_create_augroup('saywright_lenses_' .. event.buf, {})
    vim.api.nvim_create_autocmd({ 'BufEnter', 'InsertLeave', 'TextChanged' }, {
      group = lenses,
      buffer = event.buf,
      desc = 'Show what the whole piece takes',
      callback = function()
        show_lenses(event.buf)
      end,
    })
    show_lenses(event.buf)
  end,
})
