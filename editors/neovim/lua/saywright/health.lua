--- What `:checkhealth saywright` tells.
local command = require('saywright.command')
local health = vim.health

local function check_neovim()
  local numbers = vim.version()
  local version = ('%d.%d.%d'):format(numbers.major, numbers.minor, numbers.patch)
  if vim.fn.has('nvim-0.11') == 1 then
    health.ok('Neovim ' .. version)
    return true
  end
  health.error('Neovim ' .. version .. ' is too old', 'Install Neovim 0.11 or newer.')
  return false
end

--- The same program asked for its version, where it is plain how to ask.
local function version_command(configured)
  for index, word in ipairs(configured) do
    if word == 'serve' then
      return vim.list_extend(vim.list_slice(configured, 1, index - 1), { '--version' })
    end
  end
end

local function check_version(configured)
  local asked = version_command(configured)
  if not asked then
    return
  end
  local ran, answer = pcall(function()
    return vim.system(asked, { text = true }):wait(10000)
  end)
  if ran and answer.code == 0 then
    health.ok(command.typed(asked) .. ' answers: ' .. vim.trim(answer.stdout))
    return
  end
  local why = ran and vim.trim(answer.stderr) or tostring(answer)
  health.error(
    command.typed(asked) .. ' failed' .. (why ~= '' and ': ' .. why or ''),
    'Run that command in a terminal. If it fails there too, install Saywright again.'
  )
end

local function check_command()
  local configured = command.configured()
  if type(configured) == 'function' then
    health.info('The server is started by a function of your own.')
  elseif command.is_found(configured) then
    health.ok(command.typed(configured) .. ' runs ' .. vim.fn.exepath(configured[1]))
    check_version(configured)
  else
    health.error(command.not_found(configured), {
      'If Saywright is not installed: install it, then start Neovim again.',
      'If it is: give its full path in your init.lua, as in\n'
        .. "vim.lsp.config('saywright', { cmd = { '/full/path/to/saywright', 'serve' } })",
    })
  end
end

local function check_client()
  local clients = vim.lsp.get_clients({ name = 'saywright' })
  for _, client in ipairs(clients) do
    local scripts = vim.tbl_count(client.attached_buffers)
    local version = client.server_info and client.server_info.version or '?'
    local number = scripts == 1 and '1 script' or scripts .. ' scripts'
    health.ok(('Saywright %s is attached to %s'):format(version, number))
  end
  if #clients == 0 then
    health.warn('Saywright is attached to no script', {
      'Open a file that ends in .say, then run :checkhealth saywright again.',
      'If one is open: :checkhealth vim.lsp names the log that says what went wrong.',
    })
  end
end

local M = {}

function M.check()
  health.start('saywright')
  if check_neovim() then
    check_command()
    check_client()
  end
end

return M
