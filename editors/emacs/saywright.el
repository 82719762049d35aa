;;; saywright.el --- Write monologues that fit their slot  -*- lexical-binding: t; -*-

;; Copyright (c) 2026 the Saywright contributors
;; SPDX-License-Identifier: MIT
;; Version: 0.1.0
;; Keywords: languages, wp
;; Package-Requires: ((emacs "29.1"))

;;; Commentary:

;; `say-mode', for scripts in the Say markup (files that end in .say), and what Eglot needs to
;; start the language server for them.  With this in your init file it starts by itself:
;;
;;   (add-hook 'say-mode-hook #'eglot-ensure)

;;; Code:

(require 'font-lock)
(require 'outline)

(defgroup saywright nil
  "Write monologues that fit their slot."
  :group 'text)

(defcustom saywright-command '("saywright" "serve")
  "The program that answers Eglot, and its arguments."
  :type '(repeat string))

(defface saywright-cut '((t :inherit font-lock-comment-face :strike-through t))
  "What is cut: it stays in the file and is not spoken.")

(defface saywright-kept '((t :underline t))
  "What is kept: no cut may touch it.")

(defface saywright-stress '((t :inherit bold))
  "A word that is stressed.")

(defface saywright-direction '((t :inherit font-lock-doc-face))
  "A direction in brackets: it is not spoken.")

(defface saywright-breath '((t :inherit font-lock-builtin-face))
  "A breath or a beat.")

(defconst saywright--settings
  '("title" "by" "to" "rights" "content" "speaker" "slot" "margin" "pace" "language" "tense"
    "person" "form" "leave-out")
  "The keys of settings.")

(defconst saywright--setting
  (concat "^[ \t]*\\(" (regexp-opt saywright--settings) "[ \t]*:\\)\\(.*\\)$")
  "A setting: its key in group 1, its value after that.")

(defconst saywright--rule
  (concat "^[ \t]*\\(-----*\\)[ \t]*"
          "\\(?:\\(piece\\|draft\\|notes\\|takes\\)[ \t]*\\([:;].*\\)?\\)?$")
  "A rule: its dashes, its kind, and its label with its settings.")

(defconst saywright--note "^[ \t]*#\\(?:[ \t].*\\)?$"
  "A line that is a note.")

(defconst saywright--cue "^[ \t]*[^-#: \t\n][^:\n]*:[ \t]*\\(?:(.*)[ \t]*\\)?$"
  "A line that could be a cue.")

(defconst saywright--inside "\\(?:[^\n]\\|\n[ \t]*[^ \t\n]\\)*?"
  "What a pair of marks may hold: it ends with its paragraph.")

(defun saywright--marked (mark)
  "What stands between a pair of MARK, with it, as a regular expression.
The opening mark follows no word and touches one; the closing mark mirrors it."
  (let ((character (regexp-quote (substring mark 0 1))))
    (concat "\\(?:^\\|[^[:alnum:].,;:!?\\" character "]\\)"
            "\\(?1:" (regexp-quote mark) "[^" character " \t\n]"
            "\\(?:" saywright--inside "[^" character " \t\n]\\)??"
            (regexp-quote mark) "\\)\\(?:[^[:alnum:]" character "]\\|$\\)")))

(defun saywright--settings-end ()
  "Return where the settings that open the file end.
That is where the file begins, if it has none."
  (save-excursion
    (save-restriction
      (widen)
      (goto-char (point-min))
      (while (and (looking-at (concat "[ \t\ufeff]*$\\|" saywright--note)) (not (eobp)))
        (forward-line))
      (if (looking-at saywright--setting)
          (if (re-search-forward (concat "^[ \t]*$\\|" saywright--rule) nil 'move)
              (match-beginning 0)
            (point-max))
        (point-min)))))

(defun saywright--find-setting (limit)
  "Find the next setting up to LIMIT, where the file has settings."
  (let ((end (min limit (saywright--settings-end))))
    (and (< (point) end) (re-search-forward saywright--setting end t))))

(defvar saywright--font-lock-keywords
  `((".+\n?" (0 '(face nil jit-lock-defer-multiline t)))
    (saywright--find-setting (1 'font-lock-keyword-face) (2 'font-lock-string-face))
    (,saywright--rule (1 'font-lock-keyword-face)
                      (2 'font-lock-type-face nil t)
                      (3 'font-lock-string-face nil t))
    (,saywright--note (0 'font-lock-comment-face t))
    (,(saywright--marked "~~") (1 'saywright-cut prepend))
    (,(saywright--marked "__") (1 'saywright-kept prepend))
    (,(saywright--marked "*") (1 'saywright-stress prepend))
    ("\\(?:^\\|[^\\]\\)\\((\\(?:[^()\n]\\|\n[ \t]*[^() \t\n]\\)*)\\)" (1 'saywright-direction prepend))
    ("\\(?:^\\|[^[:alnum:]|\\]\\)\\(||?\\)\\(?:[^|]\\|$\\)" (1 'saywright-breath prepend)))
  "The colours of the markup.  What is spoken stays plain.
The first entry says that a line may depend on those before it in its paragraph.
Without it Eglot would ask for no new hints after a change to the last line.")

(defun saywright--whole-paragraphs ()
  "Extend the region that is coloured to whole paragraphs.
Marks may reach over lines, though never past their paragraph."
  (defvar font-lock-beg)
  (defvar font-lock-end)
  (let ((first (save-excursion (goto-char font-lock-beg) (saywright--edge -1)))
        (last (save-excursion (goto-char font-lock-end) (saywright--edge 1))))
    (when (or (< first font-lock-beg) (> last font-lock-end))
      (setq font-lock-beg first
            font-lock-end last)
      t)))

(defun saywright--edge (direction)
  "The start of the line that ends a paragraph in DIRECTION, which is -1 or 1."
  (forward-line 0)
  (while (and (not (looking-at "[ \t]*$")) (zerop (forward-line direction)) (not (eobp))))
  (if (and (> direction 0) (eobp)) (point-max) (point)))

(defconst saywright--not-filled
  (concat "[ \t\f]*$\\|" (mapconcat (lambda (line) (substring line 1))
                                    (list saywright--rule saywright--note saywright--cue
                                          saywright--setting)
                                    "\\|"))
  "A line that filling leaves alone: no speech, or the settings.")

(defun saywright--no-break-p ()
  "Whether the word at point must not begin a line: it would be no speech there."
  (save-excursion
    (skip-chars-forward " \t")
    (looking-at-p "#\\|-\\{4,\\}")))

(defun saywright--contact (&rest _)
  "The command of the language server, for Eglot."
  saywright-command)

(defvar project-vc-extra-root-markers)

;;;###autoload
(define-derived-mode say-mode text-mode "Say"
  "Major mode for monologues in the Say markup."
  (setq-local font-lock-defaults '(saywright--font-lock-keywords t t)
              font-lock-multiline t
              font-lock-extra-managed-props '(jit-lock-defer-multiline))
  (add-hook 'font-lock-extend-region-functions #'saywright--whole-paragraphs nil t)
  (setq-local comment-start "# "
              comment-end ""
              comment-start-skip "^[ \t]*#\\(?:[ \t]+\\|$\\)"
              comment-use-syntax nil)
  (setq-local paragraph-start saywright--not-filled
              paragraph-separate saywright--not-filled
              sentence-end-double-space nil)
  (add-hook 'fill-nobreak-predicate #'saywright--no-break-p nil t)
  (setq-local outline-regexp "[ \t]*-----*[ \t]*\\(?:piece\\|draft\\|notes\\|takes\\|$\\)"
              outline-level (lambda () 1)
              imenu-generic-expression '((nil "^[ \t]*-----*[ \t]*\\(\\S-.*\\)$" 1)))
  (setq-local project-vc-extra-root-markers
              (cons "saywright.toml" (bound-and-true-p project-vc-extra-root-markers))))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.say\\'" . say-mode))

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs '((say-mode :language-id "say") . saywright--contact)))

(provide 'saywright)
;;; saywright.el ends here
