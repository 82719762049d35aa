--- The command that starts the language server, and whether this computer has it.
local M = {}

--- The command that starts the server: a list of words, or a function of the user's own.
--- @return string[]|function|nil
function M.configured()
  local config = vim.lsp.config.saywright
  return config and config.cmd
end

--- The command as it would be typed.
--- @param command string[]
--- @return string
function M.typed(command)
  return table.concat(command, ' ')
end

--- Whether the command's program can be run. Only the user knows that of a function.
--- @param command string[]|function|nil
--- @return boolean
function M.is_found(command)
  return type(command) == 'function'
    or (type(command) == 'table' and vim.fn.executable(command[1]) == 1)
end

--- What a writer reads when the command is not there.
--- @param command string[]
--- @return string
function M.not_found(command)
  return table.concat({
    ('Saywright is not running. The command tried was: %s'):format(M.typed(command)),
    ('No program "%s" was found on this computer\'s PATH.'):format(command[1]),
    'Install Saywright and start Neovim again; :checkhealth saywright says more.',
  }, '\n')
end

return M
