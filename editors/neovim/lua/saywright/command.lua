--- The command that starts the language server, and whether this computer has it.
local M = {}

--- The command that starts the server: a list of words, or a function of the user's own.
--- @return string[]|function
function M.configured()
  return vim.lsp.config.saywright.cmd
end

--- The command as it would be typed.
--- @param command string[]
--- @return string
function M.typed(command)
  return table.concat(command, ' ')
end

--- Whether the command's program can be run. Only the user knows that of a function.
--- @param command string[]|function
--- @return boolean
function M.is_found(command)
  return type(command) == 'function' or vim.fn.executable(command[1]) == 1
end

--- That the command is not there, in words for a writer.
--- @param command string[]
--- @return string
function M.not_found(command)
  return table.concat({
    ('Saywright is not running. The command tried was: %s'):format(M.typed(command)),
    ('No program "%s" was found on this computer\'s PATH.'):format(command[1]),
  }, '\n')
end

return M
