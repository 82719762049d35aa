" Colours for the Say markup. What is spoken stays plain, and nothing is hidden.
if exists('b:current_syntax')
  finish
endif
let s:compatible = &cpoptions
set cpoptions&vim

syntax case ignore
syntax spell toplevel
syntax sync fromstart

" `\` before a mark's character makes it plain text
syntax match sayEscape /\\[\\()|*_~#:-]/

" | and || : a breath and a beat, next to a space, a punctuation or an edge
syntax match sayBreath /[[:alnum:]|]\@1<!||\?|\@!/
syntax match sayBreath /|\@1<!||\?[[:alnum:]|]\@!/

" A mark's span ends in its paragraph: at blank lines and rules the search for its end stops.
let s:inside = '\%(.\|\n\s*\%(-----*\)\@!\S\)\{-}'

function s:Span(group, mark, character, contains) abort
  let l:open = '[[:alnum:].,;:!?\\' .. a:character .. ']\@1<!' .. a:mark
        \ .. '[' .. a:character .. '[:space:]]\@!'
  let l:close = '[' .. a:character .. '[:space:]]\@1<!' .. a:mark
        \ .. '[[:alnum:]' .. a:character .. ']\@!'
  execute 'syntax region' a:group
        \ 'start=/' .. l:open .. '\%(' .. s:inside .. l:close .. '\)\@=/'
        \ 'skip=/\\./ end=/' .. l:close .. '/ end=/^\s*$/ contains=@Spell,' .. a:contains
endfunction

call s:Span('sayStress', '\*', '*', 'sayDirection,sayNote,sayEscape,sayBreath')
call s:Span('sayKept', '__', '_', 'sayDirection,sayNote,sayEscape,sayBreath,sayStress')
call s:Span('sayCut', '\~\~', '~', 'sayDirection,sayNote,sayEscape,sayBreath,sayKept')
delfunction s:Span

" (…) : not spoken; pairs nest
execute 'syntax region sayDirection start=/\\\@1<!(\%(' .. s:inside .. ')\)\@=/'
      \ 'skip=/\\./ end=/)/ end=/^\s*$/ contains=@Spell,sayDirection,sayDuration'
syntax match sayDuration contained
      \ /\<\%(\d\+[.,]\)\?\d\+\s\?\%(s\|secs\?\|seconds\?\|min\|mins\|minutes\?\)\>/

" # : a note for the writer
syntax match sayNote /^\s*#\%(\s.*\)\?$/ contains=@Spell

" ---- kind: label; key value : a part begins
syntax match sayRule contains=sayKind,sayRuleKey
      \ /^\s*-\{4,}\s*\%(\%(piece\|draft\|notes\|takes\)\s*\%([:;].*\)\?\)\?$/
syntax match sayKind contained /\%(^\s*-\{4,}\s*\)\@32<=\a\+/
syntax match sayRuleKey contained
      \ /\%(;\s*\)\@8<=\%(title\|by\|to\|rights\|content\|speaker\|slot\|margin\|pace\|language\|tense\|person\|form\|leave-out\|timer\|count\|alphabet\)\>/

" The part `notes` is never spoken
syntax region sayNotesPart matchgroup=sayRule contains=@Spell
      \ start=/^\s*-\{4,}\s*notes\s*\%([:;].*\)\?$/
      \ end=/^\s*-\{4,}\s*\%(piece\|draft\|notes\|takes\)\s*\%([:;].*\)\?$/me=s-1

" key: value, in the block that opens the file, up to the first blank line or rule. Notes and blank
" lines may stand before it.
let s:key = '\%(title\|by\|to\|rights\|content\|speaker\|slot\|margin\|pace\|language\|tense\|person\|form\|leave-out\)'
syntax region sayHead contains=sayNote nextgroup=saySettings
      \ start=/\%^\s*\%(#\%(\s.*\)\?\)\?\n/ end=/^\s*\%(#\%(\s\|$\)\)\@!\S/me=s-1
for s:start in ['start=/\%^\s*', 'contained start=/^\s*']
  execute 'syntax region saySettings contains=sayNote,saySettingKey' s:start .. s:key .. '\s*:/'
        \ 'end=/^\s*-\{4,}/me=s-1 end=/^\s*$/'
endfor
execute 'syntax match saySettingKey contained nextgroup=saySetting /^\s*' .. s:key .. '\s*:/'
syntax match saySetting contained /.*$/

highlight default link sayNote Comment
highlight default link sayNotesPart Comment
highlight default link sayRule Statement
highlight default link sayKind Type
highlight default link sayRuleKey Identifier
highlight default link saySettingKey Identifier
highlight default link saySetting String
highlight default link sayDirection Special
highlight default link sayDuration Number
highlight default link sayBreath Delimiter
highlight default link sayEscape SpecialChar
highlight default link sayCut @markup.strikethrough
highlight default link sayKept Underlined
highlight default link sayStress @markup.strong

let b:current_syntax = 'say'
unlet s:inside s:key s:start
let &cpoptions = s:compatible
unlet s:compatible
