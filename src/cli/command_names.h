/* command_names.h - every command, in the order the help lists them; one a
 * line.  Included with COMMAND_NAME defined. */
COMMAND_NAME(command_new)
COMMAND_NAME(command_import)
COMMAND_NAME(command_show)
COMMAND_NAME(command_compare)
COMMAND_NAME(command_choose)
COMMAND_NAME(command_calc)
COMMAND_NAME(command_verify)
