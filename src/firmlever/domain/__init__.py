# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What a circuit, a job and a result are; knows nothing of files or physics."""
