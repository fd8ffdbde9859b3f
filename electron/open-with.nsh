; Offers the program under "Open with" for Markdown, and leaves the user's own program for it alone.
!macro customInstall
  WriteRegStr SHCTX "Software\Classes\Handsclear.procedure" "" "Service procedure"
  WriteRegStr SHCTX "Software\Classes\Handsclear.procedure\shell\open\command" "" '"$INSTDIR\${APP_EXECUTABLE_FILENAME}" "%1"'
  WriteRegStr SHCTX "Software\Classes\.md\OpenWithProgids" "Handsclear.procedure" ""
!macroend

!macro customUnInstall
  DeleteRegValue SHCTX "Software\Classes\.md\OpenWithProgids" "Handsclear.procedure"
  DeleteRegKey SHCTX "Software\Classes\Handsclear.procedure"
!macroend
